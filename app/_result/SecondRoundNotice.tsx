import Link from 'next/link';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { isRescoring } from '../_evaluation/isRescoring';
import { listWords } from '../_parts/textWords';

/** While a second round is under way: that it is, who is awaited, and that what shows is the first result. Nothing of what it holds. */
export function SecondRoundNotice() {
  const evaluation = useEvaluation();
  const { round, seats, viewer, id } = evaluation;
  if (!isRescoring(evaluation) || !round) return null;
  const awaited = seats.filter((seat) => seat.kind !== 'none' && seat.state !== 'locked').map(({ label }) => label);
  const own = seats.find((seat) => seat.id === viewer.seatId);
  const mine = round.state === 'open' && own !== undefined && own.kind !== 'none' && own.state !== 'locked';
  return (
    <section aria-label="Second round" className="told stack text gap-4 roomy">
      <p>
        <b>A second round is {round.state}.</b>{' '}
        {round.state === 'open'
          ? `Not locked yet: ${listWords(awaited)}. `
          : 'The owner reveals it on the scoring page. '}
        What you see here is the result of the first round; picks and second looks wait until the second is revealed.
      </p>
      <p>
        <Link className="touch strong" href={`/score?id=${id}`}>
          {mine ? 'Score the questions that are asked again' : 'See who has locked'}
        </Link>
      </p>
    </section>
  );
}
