import { createHash } from 'node:crypto';
import type { NoPlace, Offer, PlanAssignment, PlanChange } from '#libs/plan';
import { unitOf, withNames } from '../../planning/index.js';
import type {
  MovedPlaceResponse,
  NoPlaceResponse,
  OfferedMoveResponse,
  OfferedPlaceResponse,
  OfferResponse,
} from '../dto/offer.response.js';
import { askedOperation, type OffersQuestion } from '../queries/offers-question.query.js';
import { noPlaceWords } from './no-place-words.js';
import { offerWords } from './offer-words.js';

export function offerResponse(question: OffersQuestion, offer: Offer): OfferResponse {
  const { shop, settings, now } = question;
  const iso = (minute: number): string => shop.horizon.instantOf(minute).toISOString();
  const first = offer.assignments.find(({ bay }) => bay !== null) ?? offer.assignments[0];
  const told = {
    arrivesAt: iso(offer.arrives),
    startsAt: iso(offer.start),
    bayId: first?.bay ?? '',
    bayName: shop.names.get(first?.bay ?? '') ?? '',
    readyAt: iso(offer.ready),
    readyP80At: iso(Math.max(offer.ready, offer.readyP80)),
    places: offer.assignments.map((one) => placeResponse(question, one)),
    moves: offer.moves.flatMap((change) => moveResponse(question, change)),
    latenessAddedMinutes: offer.latenessAdded,
  };
  const key = createHash('sha256').update(JSON.stringify(told)).digest('base64url');
  return { offerKey: key.slice(0, 22), ...told, words: offerWords(told, settings.timeZone, now) };
}

function placeResponse(
  { visit, shop }: OffersQuestion,
  { operation, start, end, bay, technicians, tools }: PlanAssignment,
): OfferedPlaceResponse {
  const work = visit.work.findIndex((_, at) => askedOperation(at) === operation);
  return {
    work,
    title: visit.work[work]?.title ?? '',
    ...spot(shop, { start, end, bay, technicians }),
    tools: tools.map((id) => {
      const { toolId, unit } = unitOf(id);
      return { toolId, name: shop.names.get(toolId) ?? '', unit };
    }),
  };
}

function spot(
  { names, horizon }: OffersQuestion['shop'],
  { start, end, bay, technicians }: Pick<PlanAssignment, 'start' | 'end' | 'bay' | 'technicians'>,
): MovedPlaceResponse {
  const [technicianId = ''] = technicians;
  return {
    bayId: bay ?? '',
    bayName: names.get(bay ?? '') ?? '',
    technicianId,
    technicianName: names.get(technicianId) ?? '',
    startsAt: horizon.instantOf(start).toISOString(),
    endsAt: horizon.instantOf(end).toISOString(),
  };
}

/** What had a place and would have another one, or none. Work that has none yet is not moved. */
function moveResponse(
  { shop, reserved }: OffersQuestion,
  { operation, was, is, why }: PlanChange,
): OfferedMoveResponse[] {
  if (was === null) return [];
  const places = { was: spot(shop, was), is: is && spot(shop, is), why: withNames(why, shop.names) };
  const order = shop.workOrders.get(operation);
  if (order !== undefined)
    return [{ kind: 'work-order', id: order.id, number: order.number, title: order.title, ...places }];
  const name = reserved.get(operation);
  return name === undefined
    ? []
    : [{ kind: 'reservation', id: name.reservationId, number: name.number, title: name.title, ...places }];
}

export function noPlaceResponse({ visit, shop }: OffersQuestion, found: NoPlace): NoPlaceResponse {
  const work = visit.work.find((_, at) => askedOperation(at) === found.operation);
  return noPlaceWords(found, {
    work: work?.title ?? 'the work',
    tool: shop.names.get(found.toolKind ?? '') ?? 'a special tool',
  });
}
