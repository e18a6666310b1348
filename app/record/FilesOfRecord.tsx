import { useQuery } from '@tanstack/react-query';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from '../_parts/Button';
import { Disclosure } from '../_parts/Disclosure';
import { Loading } from '../_parts/Loading';
import { offerFile } from '../_parts/offerFile';
import { Refusal } from '../_parts/Refusal';
import { purposeWords } from '../_parts/textWords';
import { RecordSection } from './RecordSection';

/** What is revealed, to be opened in a spreadsheet or worked out again elsewhere. Not for paper. */
export function FilesOfRecord() {
  return (
    <div className="unprinted">
      <RecordSection id="files" title="Files to keep">
        <Disclosure lazy words="Scores, checks, looks and decisions as CSV">
          <FileList />
        </Disclosure>
        <WholeFile />
      </RecordSection>
    </div>
  );
}

/** Everything as one file, for another Evenstack; the same rule as the server's, so that nobody is sent to a refusal. */
function WholeFile() {
  const { id, name, viewer, plan, round, lookOpen, imported } = useEvaluation();
  // Nobody but the owner of this server reads what was imported.
  if (!viewer.owner && imported === null) return null;
  if (plan.discussion === 'anonymous')
    return (
      <p className="small">
        All of it as one file would say who gave which score. This panel is anonymous, so there is none.
      </p>
    );
  if (round?.state !== 'revealed' || lookOpen)
    return (
      <p className="small">
        All of it as one file, for another Evenstack: once every round and second look is revealed.
      </p>
    );
  return (
    <div className="stack starts gap-4">
      <a href={`/api/evaluation/${id}`} download={`${name.replaceAll(/[^\p{L}\p{N}-]+/gu, '-')}.zip`} className="touch">
        Everything as one file, with the pictures
      </a>
      <p className="small">
        A zip that another Evenstack reads and checks. It holds every name, every score and note of this evaluation,
        litter and parents, and no link, passphrase or session. Give it only to whom you would show all of that.
      </p>
    </div>
  );
}

function FileList() {
  const { id } = useEvaluation();
  const trpc = useTRPC();
  const { data, error } = useQuery(trpc.record.files.queryOptions({ id }));
  if (!data) return error === null ? <Loading what="the files" /> : <Refusal error={error} />;
  return (
    <>
      {data.ownOnly ? (
        <p>This panel is anonymous: of scores and answers the files hold your own and nobody else’s.</p>
      ) : null}
      <ul className="list stack gap-12">
        {data.files.map((file) => (
          <li key={file.name} className="stack starts gap-4">
            <Button onClick={() => offerFile(file.name, file.text)}>{file.name}</Button>
            <span>{file.holds}</span>
          </li>
        ))}
      </ul>
      {data.commands.length > 0 ? (
        <Disclosure words="Work it out again by the command line">
          <p>From the scores alone, without second looks, for each purpose:</p>
          {data.commands.map(({ purpose, command }) => (
            <p key={purpose}>
              {purposeWords[purpose]}: <code className="anywhere">{command}</code>
            </p>
          ))}
        </Disclosure>
      ) : null}
    </>
  );
}
