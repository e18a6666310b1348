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
      </RecordSection>
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
      {data.ownOnly ? <p>This panel is anonymous: of scores and answers the files hold your own and nobody else’s.</p> : null}
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
