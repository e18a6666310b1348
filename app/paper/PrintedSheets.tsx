import type { PaperSeat, PaperSheet } from '#lib/contract/paper';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { SeatShape } from '../_parts/SeatShape';
import { capital, collarWords } from '../_parts/textWords';
import { dayWords } from '../_parts/timeWords';
import { cssString } from '../record/RecordScreen';
import { rowsOfSheet, type SheetRow } from './sheetRows';
import styles from './paper.module.css';

/** The blank sheets of one seat, drawn for the printer alone: a puppy a sheet, its head again on every page of it. */
export function PrintedSheets({ seat }: { readonly seat: PaperSeat }) {
  const { litterName, name, heldOn } = useEvaluation();
  const head = `@page { margin: 16mm 12mm 14mm; @top-left { content: ${cssString(`${litterName} · ${name} · ${dayWords(heldOn)}`)}; font: 9pt sans-serif; } @top-right { content: ${cssString(seat.label)}; font: 9pt sans-serif; } @bottom-right { content: counter(page) " of " counter(pages); font: 9pt sans-serif; } }`;
  return (
    <div className={styles.printed}>
      <style>{head}</style>
      {seat.sheets.map((sheet) => (
        <PrintedSheet key={sheet.showingId} seat={seat} sheet={sheet} />
      ))}
    </div>
  );
}

function PrintedSheet({ seat, sheet }: { readonly seat: PaperSeat; readonly sheet: PaperSheet }) {
  const evaluation = useEvaluation();
  const { puppy } = sheet;
  const facts = [
    collarWords(puppy.collar),
    puppy.sex,
    puppy.secondMark,
    sheet.chipDigits === '' ? '' : `chip ends in ${sheet.chipDigits}`,
    `${evaluation.ageDays} days`,
  ].filter((fact) => fact !== '');
  return (
    <table className={styles.page}>
      <thead>
        <tr>
          <th scope="col">
            <div className={styles.head}>
              <span className={styles.bigCode}>{sheet.code}</span>
              <span className={styles.who}>
                <strong>{puppy.name}</strong> · {facts.join(' · ')}
              </span>
              <span className={styles.seat}>
                <SeatShape position={seat.position} size={18} /> {capital(seat.label)}
              </span>
            </div>
          </th>
        </tr>
      </thead>
      <tbody>
        {rowsOfSheet(evaluation, seat.kind, puppy).map((row) => (
          <tr key={row.field}>
            <td>
              <PrintedRow row={row} />
            </td>
          </tr>
        ))}
        <tr>
          <td>
            <div className={styles.word}>A word</div>
            {seat.onPaper ? (
              <p className={styles.told}>
                The owner types this sheet in and sees it then; nobody else before the reveal.
              </p>
            ) : null}
            <div className={styles.lock}>
              <span>Lock: signature</span>
              <span>time</span>
            </div>
          </td>
        </tr>
      </tbody>
    </table>
  );
}

function PrintedRow({ row }: { readonly row: SheetRow }) {
  const scaled = row.field === 'overall' || row.field.startsWith('score:') || row.field.startsWith('free:');
  const boxes = [
    ...row.boxes,
    ...(row.notSeen ? [{ key: '-', words: scaled ? 'not seen' : 'not examined', body: row.notSeen }] : []),
  ];
  return (
    <div className={scaled ? styles.scaled : styles.listed}>
      <div>
        <strong>{row.title}</strong>
        {row.anchors.map((anchor) => (
          <p key={anchor} className={styles.anchor}>
            {anchor}
          </p>
        ))}
      </div>
      <div className={styles.boxes}>
        {boxes.map((box) => (
          <span key={box.key} className={styles.answer}>
            <span className={styles.box}>{box.key}</span>
            <span className={styles.words}>{scaled ? shortWords(row, box.words) : box.words}</span>
          </span>
        ))}
      </div>
    </div>
  );
}

/** Under a box there is room for one word: of a side and its degree the degree, since the anchors name the sides. */
function shortWords({ boxes }: SheetRow, words: string): string {
  const sided = boxes.some((box) => box.words.includes(', '));
  return sided ? (words.split(', ').at(-1) ?? '') : words;
}
