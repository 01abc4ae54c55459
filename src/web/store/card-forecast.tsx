import '../styles/chart.css';
import { query, type Schemas } from '../api/client.js';
import { number } from '../format.js';
import { Sheet } from '../ui/sheet.js';
import { Loaded } from '../ui/states.js';
import { reorderWords } from '../words/reorder.js';
import { cardWords } from '../words/stock-card.js';
import { ForecastFigure } from './forecast-figure.js';
import { REORDER_COLUMNS } from './reorder-columns.js';

const said = cardWords.forecast;
const percent = (share: number) => `${number(share * 100, 1)} %`;

/** The item at each place where it is kept: what is proposed, and the balance over time. */
export function CardForecast({ itemId }: { itemId: string }) {
  const item = query.useQuery('get', '/api/reorder/items/{itemId}', { params: { path: { itemId } } });
  return (
    <section className="block">
      <h2>{said.title}</h2>
      <Loaded of={item} what={said.what}>
        {({ cards }) =>
          cards.length === 0 ? (
            <p className="aside">
              {said.none} {said.noneWhy}
            </p>
          ) : (
            <>
              <Sheet caption={reorderWords.caption} columns={REORDER_COLUMNS} rows={cards.map(({ line }) => line)} keyOf={({ placeId }) => placeId} />
              {cards.map((card) => (
                <div key={card.line.placeId} className="fields-one">
                  <ForecastFigure card={card} />
                  <Service line={card.line} />
                </div>
              ))}
            </>
          )
        }
      </Loaded>
    </section>
  );
}

function Service({ line: { now, oneMore, oneLess } }: { line: Schemas['ReorderLineView'] }) {
  return (
    <p>
      {said.service(percent(now.enough), number(now.missing, 2))} {said.one(percent(oneMore.enough), percent(oneLess.enough))}
    </p>
  );
}
