import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { day, number, written } from '../format.js';
import { useMay } from '../session/session.js';
import type { Fact } from '../ui/page-head.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { cardWords } from '../words/stock-card.js';
import { storeWords } from '../words/store.js';
import { words } from '../words.js';
import { amount } from './amount.js';
import { CardCodes } from './card-codes.js';
import { CardForecast } from './card-forecast.js';
import { CardMoves } from './card-moves.js';
import { CardOffers } from './card-offers.js';
import { CardReservations } from './card-reservations.js';
import { CardSettings } from './card-settings.js';
import { StoreHead } from './store-head.js';

type Supply = Schemas['ItemSupplyView'];
const MOST = 200;

/** All that the store knows of one item. */
export default function CardPage({ itemId }: { itemId: string }) {
  const { keepStore } = useMay();
  const supply = query.useQuery('get', '/api/items/{id}/supply', { params: { path: { id: itemId } } });
  return (
    <Loaded of={supply} what={cardWords.what}>
      {(item) => (
        <>
          <StoreHead title={item.name} facts={factsOf(item)}>
            <p>{item.code}</p>
          </StoreHead>
          {keepStore && <CardForecast itemId={itemId} />}
          <Balance itemId={itemId} />
          {keepStore && <CardSettings itemId={itemId} unit={item.unit} />}
          <CardReservations itemId={itemId} />
          {keepStore && <CardOffers itemId={itemId} unit={item.unit} />}
          <CardCodes itemId={itemId} />
          <Hazards item={item} />
          <CardMoves itemId={itemId} />
        </>
      )}
    </Loaded>
  );
}

function factsOf({ unit, criticality, shelfLifeDays, supersededBy }: Supply): Fact[] {
  return [
    { name: cardWords.unit, value: storeWords.unitName(unit) },
    { name: cardWords.criticality, value: criticality },
    ...(shelfLifeDays === null ? [] : [{ name: cardWords.shelfLife, value: cardWords.days(number(shelfLifeDays)) }]),
    ...(supersededBy === null ? [] : [{ name: cardWords.superseded, value: <Link href={`/stock/items/${supersededBy.itemId}`}>{supersededBy.code}</Link> }]),
  ];
}

type Line = Schemas['StockLineView'];
const said = cardWords.stock;
const COLUMNS: readonly Column<Line>[] = [
  { name: said.place, cell: ({ placeName }) => placeName },
  {
    name: said.lot,
    cell: ({ lot, serialNumber, held }) => (
      <>
        {[lot, serialNumber].filter((one) => one !== null).join(', ') || words.none}
        {held !== '' && <small>{said.held(held)}</small>}
      </>
    ),
  },
  { name: said.expires, short: true, cell: ({ expiresOn }) => day(expiresOn) },
  { name: said.preserve, short: true, cell: ({ preserveBy }) => day(preserveBy) },
  { name: said.owner, cell: ({ ownerName }) => ownerName ?? said.ours },
  { name: said.onHand, numeric: true, cell: ({ onHand, unit }) => amount(onHand, unit) },
];

function Balance({ itemId }: { itemId: string }) {
  const lines = query.useQuery('get', '/api/stock', { params: { query: { itemId, limit: MOST } } });
  return (
    <section className="block">
      <h2>{said.title}</h2>
      <Loaded of={lines} what={said.what}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title={said.none}>{said.noneWhy}</Empty>
          ) : (
            <Sheet
              caption={said.caption}
              columns={COLUMNS}
              rows={items}
              keyOf={({ placeId, lot, partId, ownerId }) => [placeId, lot, partId, ownerId].join(' ')}
            />
          )
        }
      </Loaded>
    </section>
  );
}

function Hazards({ item: { hazards, usualHazards, mustNotMeet, alternatives } }: { item: Supply }) {
  const isUsual = hazards.length === 0;
  const shown = isUsual ? usualHazards : hazards;
  if (shown.length + mustNotMeet.length + alternatives.length === 0) return null;
  const { hazards: of } = cardWords;
  return (
    <section className="block">
      {shown.length > 0 && (
        <>
          <h2>{of.title}</h2>
          {isUsual && <p className="hint">{of.usual}</p>}
          <ul className="plain">
            {shown.map(({ fromPercent, belowPercent, unNumber, packingGroup, signalWord, statements }) => (
              <li key={fromPercent}>
                {of.range(written(Number(fromPercent)), belowPercent === null ? null : written(Number(belowPercent)))}: <strong>{signalWord}</strong>{' '}
                {[statements.join(', '), ...(unNumber === null ? [] : [of.un(unNumber, packingGroup)])].filter(Boolean).join('; ')}
              </li>
            ))}
          </ul>
        </>
      )}
      {mustNotMeet.length > 0 && (
        <p className="caution">
          <strong>{of.meets}:</strong> {mustNotMeet.join(', ')}
        </p>
      )}
      {alternatives.length > 0 && (
        <>
          <h2>{cardWords.alternatives}</h2>
          <ul className="plain">
            {alternatives.map(({ itemId, name, code, note }) => (
              <li key={itemId}>
                <Link href={`/stock/items/${itemId}`}>{storeWords.post.chosen(name, code)}</Link> {note}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
