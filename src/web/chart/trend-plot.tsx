import { memo, useId } from 'react';
import { flagBox, levelDigits, type TrendBox, type TrendDrawing } from '../../shared/trend.js';
import { axisDate, number } from '../format.js';

interface PlotProps {
  readonly drawing: TrendDrawing;
  readonly box: TrendBox;
  readonly spanMs: number;
  readonly limitLabel: string;
  readonly baselineLabel: string;
  readonly titleId: string;
  readonly sentenceId: string;
}

/** The drawing itself. Hidden from screen readers in its parts: the sentence, the slider and the table of numbers say the same. */
export const TrendPlot = memo(function TrendPlot({ drawing, box, spanMs, limitLabel, baselineLabel, titleId, sentenceId }: PlotProps) {
  const clipId = useId();
  const floor = box.height - box.bottom;
  const edge = box.width - box.right;
  const { limitY, baselineY, crossing } = drawing;
  return (
    // biome-ignore lint/a11y/noSvgWithoutTitle: named by the heading of the figure
    <svg
      className="plot"
      width={box.width}
      height={box.height}
      viewBox={`0 0 ${box.width} ${box.height}`}
      role="img"
      aria-labelledby={titleId}
      aria-describedby={sentenceId}
    >
      <g className="plot-grid">
        {drawing.levels.map((level) => (
          <path key={level.value} d={`M${box.left} ${level.y.toFixed(1)}H${edge}`} />
        ))}
      </g>
      <g className="plot-text">
        {drawing.levels.map((level) => (
          <text key={level.value} x={box.left - 6} y={level.y + 4} textAnchor="end">
            {number(level.value, levelDigits(drawing.levels))}
          </text>
        ))}
        {drawing.dates.map((date) => (
          <text key={date.atMs} x={date.x} y={floor + 16} textAnchor={date.x > edge - 24 ? 'end' : 'middle'}>
            {axisDate(date.atMs, spanMs)}
          </text>
        ))}
      </g>
      <g className="plot-axis">
        <path d={`M${box.left} ${floor}H${edge}`} />
        {drawing.dates.map((date) => (
          <path key={date.atMs} d={`M${date.x.toFixed(1)} ${floor}v4`} />
        ))}
      </g>
      <clipPath id={clipId}>
        <rect x={box.left} y={box.top} width={edge - box.left} height={floor - box.top} />
      </clipPath>
      <g clipPath={`url(#${clipId})`}>
        <path d={drawing.band} className="plot-band" />
        {baselineY !== null && <path d={`M${box.left} ${baselineY.toFixed(1)}H${edge}`} className="plot-baseline" />}
        <path d={drawing.line} className="plot-line" />
        <path d={drawing.dots} className="plot-dots" />
        <path d={drawing.mid} className="plot-mid" />
      </g>
      {baselineY !== null && (
        <text x={edge - 4} y={baselineY - 5} textAnchor="end" className="plot-label plot-label-soft">
          {baselineLabel}
        </text>
      )}
      {limitY !== null && (
        <>
          <path d={`M${box.left} ${limitY.toFixed(1)}H${edge}`} className="plot-limit" />
          <text x={box.left + 4} y={limitY - 5} className="plot-label">
            {limitLabel}
          </text>
        </>
      )}
      <Flags drawing={drawing} top={box.top} floor={floor} />
      {crossing !== null && (
        <g className="plot-crossing">
          <path
            d={`M${crossing.earlyX.toFixed(1)} ${crossing.y - 5}v10M${crossing.lateX.toFixed(1)} ${crossing.y - 5}v10M${crossing.earlyX.toFixed(1)} ${crossing.y}H${crossing.lateX.toFixed(1)}`}
          />
          <path d={`M${crossing.likelyX.toFixed(1)} ${crossing.y - 7}l6 7-6 7-6-7Z`} className="plot-crossing-dot" />
        </g>
      )}
    </svg>
  );
});

function Flags({ drawing, top, floor }: { drawing: TrendDrawing; top: number; floor: number }) {
  return drawing.flags.map((flag) => {
    const { label, x, width } = flagBox(flag);
    return (
      <g key={flag.first} className="plot-event">
        {flag.xs.map((each) => (
          <path key={each} d={`M${each.toFixed(1)} ${top}V${floor}`} />
        ))}
        <rect x={x} y={top - 15} width={width} height="14" rx="2" />
        <text x={x + width / 2} y={top - 4} textAnchor="middle">
          {label}
        </text>
      </g>
    );
  });
}
