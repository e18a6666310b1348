import type { PictureSetting } from '#lib/photo/measureRatio';
import { FieldNumber } from './FieldNumber';
import styles from './CloseUp.module.css';

type Props = {
  readonly sizeWords: string;
  readonly size: number;
  readonly onSize: (millimetres: number) => void;
  readonly setting: PictureSetting;
  readonly onSetting: (setting: PictureSetting) => void;
};

/** What is assumed about the picture: every figure widens or narrows the range that is given. */
export function PictureSettingForm({ sizeWords, size, onSize, setting, onSetting }: Props) {
  const of = (key: keyof PictureSetting) => (value: number) => onSetting({ ...setting, [key]: value });
  return (
    <details>
      <summary>How the picture was taken</summary>
      <div className={styles.settings}>
        <FieldNumber label={`${sizeWords}, in centimetres`} value={size / 10} range={[2, 120]} onChange={(value) => onSize(value * 10)} />
        <FieldNumber label="Camera away, in metres" value={setting.distance / 1000} range={[0.2, 10]} onChange={(value) => of('distance')(value * 1000)} />
        <FieldNumber label="Camera too high by at most, in centimetres" value={setting.tooHigh / 10} range={[0, 200]} onChange={(value) => of('tooHigh')(value * 10)} />
        <FieldNumber label="Body turned by at most, in degrees" value={setting.turn} range={[0, 45]} onChange={of('turn')} />
        <FieldNumber label="A place is put wrong by, in millimetres" value={setting.landmarkError} range={[1, 30]} onChange={of('landmarkError')} />
      </div>
    </details>
  );
}
