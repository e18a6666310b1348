'use client';

import { useState } from 'react';
import { carefulPicture } from '#lib/photo/measureRatio';
import type { Landmark } from '#lib/photo/landmark';
import { landmarkWords } from '#lib/photo/landmark';
import type { Placing } from '#lib/photo/placing';
import { landmarksOf, ratioKeys, ratios, type RatioKey } from '#lib/photo/ratio';
import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import styles from './CloseUp.module.css';
import type { ToolProps } from './CloseUp';
import { Cross } from './Cross';
import { Magnifier } from './Magnifier';
import { MeasureResult } from './MeasureResult';
import { PictureSettingForm } from './PictureSettingForm';
import { Stage } from './Stage';
import { usePlacing } from './usePlacing';

const headOnly: readonly RatioKey[] = ['muzzle-skull'];

/** One ratio at a time, by the landmarks it needs and no others: crosses without numbers, and no lines between them. */
export function MeasureTool(props: ToolProps) {
  const { photo, label, stage } = props;
  const offered = photo.view === 'head-side' ? headOnly : ratioKeys;
  const [key, chooseKey] = useState<RatioKey>(offered[0] ?? 'length-height');
  const [placing, place] = useState<Placing>({});
  const [again, redo] = useState<Landmark | null>(null);
  const [size, setSize] = useState(ratios[key].usualMillimetres);
  const [setting, set] = useState(carefulPicture);
  const wanted = landmarksOf(key);
  const next = again ?? wanted.find((landmark) => placing[landmark] === undefined);
  const hand = usePlacing((at) => {
    if (!next) return;
    place({ ...placing, [next]: at });
    redo(null);
  }, stage.mirrored);
  const begin = (chosen: RatioKey) => {
    chooseKey(chosen);
    place({});
    redo(null);
    setSize(ratios[chosen].usualMillimetres);
  };
  return (
    <div className={styles.tool}>
      <div className={styles.measured}>
        <Stage photo={photo} label={label} {...stage} onTap={hand.onTap} onKey={hand.onKey}>
          {wanted.map((landmark) => {
            const at = placing[landmark];
            return at && <Cross key={landmark} at={at} size={photo} zoom={stage.view.zoom} set title={landmarkWords[landmark].name} />;
          })}
          {next && <Cross at={hand.cross} size={photo} zoom={stage.view.zoom} />}
        </Stage>
        {next && <Magnifier photo={photo} at={hand.cross} />}
      </div>
      <div className={styles.side}>
        <FieldChoice<RatioKey> label="Ratio" value={key} options={offered.map((one) => ({ key: one, words: ratios[one].name }))} onChange={begin} />
        <p role="status">
          {next ? (
            <>
              Put the cross on the <b>{landmarkWords[next].name}</b>. {landmarkWords[next].where}
            </>
          ) : (
            'All places are set.'
          )}
        </p>
        <p className="small">Tap, or move the cross with the arrow keys (Shift: further) and press Enter.</p>
        <PlacesSet places={wanted.filter((landmark) => placing[landmark])} onAgain={redo} />
        <PictureSettingForm sizeWords={ratios[key].sizeWords} size={size} onSize={setSize} setting={setting} onSetting={set} />
        <MeasureResult {...props} asked={{ key, placing, size: photo, sizeMillimetres: size, setting }} onKept={() => begin(key)} />
      </div>
    </div>
  );
}

function PlacesSet({ places, onAgain }: { readonly places: readonly Landmark[]; readonly onAgain: (landmark: Landmark) => void }) {
  return (
    <ul className={styles.lines} aria-label="Places set">
      {places.map((landmark) => (
        <li key={landmark}>
          <span>{landmarkWords[landmark].name}</span>
          <Button tone="quiet" onClick={() => onAgain(landmark)}>
            Set again<span className="aloud">: {landmarkWords[landmark].name}</span>
          </Button>
        </li>
      ))}
    </ul>
  );
}
