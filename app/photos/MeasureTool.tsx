'use client';

import { useState } from 'react';
import { carefulPicture, type PictureSetting } from '#lib/photo/measureRatio';
import type { Point } from '#lib/photo/pinhole';
import { type Landmark, landmarkWords, type Placing } from '#lib/photo/placing';
import { landmarksOf, type RatioKey, ratioKeys, ratios } from '#lib/photo/ratio';
import { Button } from '../_parts/Button';
import { Disclosure } from '../_parts/Disclosure';
import { FieldChoice } from '../_parts/FieldChoice';
import { Cross } from './PointerMark';
import { FieldNumber } from './FieldNumber';
import { MeasureResult } from './MeasureResult';
import { Stage, type StagePhoto } from './Stage';
import { photoAddress } from './PhotoThumb';
import styles from './photos.module.css';
import type { ToolProps } from './useMarks';
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
    <div className={`stack gap-16 tops ${styles.tool}`}>
      <div className="positioned">
        <Stage photo={photo} label={label} {...stage} onTap={hand.onTap} onKey={hand.onKey}>
          {wanted.map((landmark) => {
            const at = placing[landmark];
            return at ? (
              <Cross
                key={landmark}
                at={at}
                size={photo}
                zoom={stage.view.zoom}
                set
                title={landmarkWords[landmark].name}
              />
            ) : null;
          })}
          {next ? <Cross at={hand.cross} size={photo} zoom={stage.view.zoom} /> : null}
        </Stage>
        {next ? <Magnifier photo={photo} at={hand.cross} /> : null}
      </div>
      <div className="stack gap-12">
        <FieldChoice<RatioKey>
          label="Ratio"
          value={key}
          options={offered.map((one) => ({ key: one, words: ratios[one].name }))}
          onChange={begin}
        />
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
        <PictureSettingForm
          sizeWords={ratios[key].sizeWords}
          size={size}
          onSize={setSize}
          setting={setting}
          onSetting={set}
        />
        <MeasureResult
          {...props}
          asked={{ key, placing, size: photo, sizeMillimetres: size, setting }}
          onKept={() => begin(key)}
        />
      </div>
    </div>
  );
}

function PlacesSet({
  places,
  onAgain,
}: {
  readonly places: readonly Landmark[];
  readonly onAgain: (landmark: Landmark) => void;
}) {
  return (
    <ul className={`list lined stack gap-4 ${styles.lines}`} aria-label="Places set">
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

/** What lies under the cross, four times enlarged: fingers hide what they point at. */
function Magnifier({ photo, at }: { readonly photo: StagePhoto; readonly at: Point }) {
  const reach = Math.max(photo.width, photo.height) / 16;
  const [x, y] = [at.x * photo.width, at.y * photo.height];
  return (
    <svg
      className={styles.magnifier}
      viewBox={`${x - reach} ${y - reach} ${2 * reach} ${2 * reach}`}
      aria-hidden="true"
    >
      <image
        href={photoAddress(photo.id, 'large')}
        width={photo.width}
        height={photo.height}
        preserveAspectRatio="none"
      />
      <Cross at={at} size={photo} zoom={40} />
    </svg>
  );
}

type Props = {
  readonly sizeWords: string;
  readonly size: number;
  readonly onSize: (millimetres: number) => void;
  readonly setting: PictureSetting;
  readonly onSetting: (setting: PictureSetting) => void;
};

/** What is assumed about the picture: every figure widens or narrows the range that is given. */
function PictureSettingForm({ sizeWords, size, onSize, setting, onSetting }: Props) {
  const of = (key: keyof PictureSetting) => (value: number) => onSetting({ ...setting, [key]: value });
  return (
    <Disclosure bare words="How the picture was taken">
      <div className="stack gap-10">
        <FieldNumber
          label={`${sizeWords}, in centimetres`}
          value={size / 10}
          range={[2, 120]}
          onChange={(value) => onSize(value * 10)}
        />
        <FieldNumber
          label="Camera away, in metres"
          value={setting.distance / 1000}
          range={[0.2, 10]}
          onChange={(value) => of('distance')(value * 1000)}
        />
        <FieldNumber
          label="Camera too high by at most, in centimetres"
          value={setting.tooHigh / 10}
          range={[0, 200]}
          onChange={(value) => of('tooHigh')(value * 10)}
        />
        <FieldNumber
          label="Body turned by at most, in degrees"
          value={setting.turn}
          range={[0, 45]}
          onChange={of('turn')}
        />
        <FieldNumber
          label="A place is put wrong by, in millimetres"
          value={setting.landmarkError}
          range={[1, 30]}
          onChange={of('landmarkError')}
        />
      </div>
    </Disclosure>
  );
}
