import styles from './Stage.module.css';

const shares = [20, 40, 60, 80] as const;

/** Plain level and upright lines over the picture: they stay where they are when it moves. */
export function Guides() {
  return (
    <svg className={styles.guides} viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
      {shares.map((at) => (
        <g key={at}>
          <path d={`M0 ${at}H100M${at} 0V100`} className={styles.guideCasing} />
          <path d={`M0 ${at}H100M${at} 0V100`} className={styles.guideLine} />
        </g>
      ))}
    </svg>
  );
}
