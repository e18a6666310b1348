import type { RouterOutputs } from './_parts/routerOutputs';
import { ButtonLink } from './_parts/ButtonLink';
import styles from './Home.module.css';

type HomeNextProps = {
  readonly litters: RouterOutputs['litter']['list'];
  readonly evaluations: RouterOutputs['evaluation']['list'];
};

/** One sentence and one button: the next thing to do. */
export function HomeNext({ litters, evaluations }: HomeNextProps) {
  const { say, href, words } = nextStep(litters, evaluations);
  return (
    <section aria-label="What to do next" className={styles.part}>
      <p className={styles.say}>{say}</p>
      <div className={styles.actions}>
        <ButtonLink tone="main" href={href}>
          {words}
        </ButtonLink>
      </div>
    </section>
  );
}

type Step = { readonly say: string; readonly href: string; readonly words: string };

function nextStep(litters: HomeNextProps['litters'], evaluations: HomeNextProps['evaluations']): Step {
  const open = evaluations.filter((one) => one.phase !== 'sealed');
  const scoring = open.find((one) => one.phase === 'scoring');
  if (scoring) return { say: `“${scoring.name}” is being scored. Your own card comes first.`, href: `/score?id=${scoring.id}`, words: 'Go to scoring' };
  const deciding = open.find((one) => one.phase === 'deciding');
  if (deciding) return { say: `“${deciding.name}” is revealed. The pick order is still to be walked through.`, href: `/board?id=${deciding.id}`, words: 'Go to the board' };
  const preparing = open.find((one) => one.phase === 'preparing');
  if (preparing) return { say: `“${preparing.name}” is being prepared. Finish the set-up, send the links, open the round.`, href: `/setup?id=${preparing.id}`, words: 'Go on with the set-up' };
  const bare = litters.find((one) => one.puppies === 0);
  if (bare) return { say: `“${bare.name}” has no puppies yet. Put them in, with their collars.`, href: `/litter?id=${bare.id}`, words: 'Put the puppies in' };
  const [litter] = litters;
  if (litter) return { say: `Start an evaluation of “${litter.name}” from its page.`, href: `/litter?id=${litter.id}`, words: 'Go to the litter' };
  return { say: 'Start with a litter: its name and whelping date, then its puppies and their collars.', href: '/litter', words: 'New litter' };
}
