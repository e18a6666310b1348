import { ButtonLink } from './_parts/ButtonLink';
import { CautionNote } from './_parts/CautionNote';
import styles from './Home.module.css';

/** For a browser without a session. */
export function HomeStranger({ demo }: { readonly demo: boolean }) {
  return (
    <>
      <p className={styles.say}>
        Several people score the same litter’s structure, each alone and blind to the rest. Once all are in, Evenstack shows how far they
        agree, what the scores say together, and which choices are too close to call.
      </p>
      <section className={styles.part}>
        <h2>{demo ? 'This is the demonstration' : 'You need a link or a code'}</h2>
        {demo ? (
          <>
            <p>You get a copy of your own of an invented litter, to try everything on. It is thrown away after a day; nothing in it is real.</p>
            <div className={styles.actions}>
              <ButtonLink tone="main" href="/demo">
                Choose a seat in the demonstration
              </ButtonLink>
            </div>
          </>
        ) : (
          <>
            <p>Open the link you were sent, in this browser, or type the code that was read out to you. There is no account.</p>
            <div className={styles.actions}>
              <ButtonLink tone="main" href="/join">
                Type a spoken code
              </ButtonLink>
              <ButtonLink href="/sign-in">Sign in as the owner</ButtonLink>
            </div>
            <p className="small">
              A link works once. If yours was used already, ask whoever runs the evaluation for a fresh one. If that is you, the owner’s link
              is printed where Evenstack was started.
            </p>
          </>
        )}
      </section>
      <CautionNote caution="not-veterinary" />
    </>
  );
}
