import { FloorBuilder } from '../builders/floor.js';
import { aCar, type Car } from '../support/cars.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

// 11 March 2026 is a Wednesday; New York is at UTC-4 since the Sunday before.
const at = (time: string, day = '2026-03-11'): string => `${day}T${time}:00-04:00`;

interface Kept {
  id: string;
  number: number;
  state: string;
  promisedAt: string;
  repairOrderId: string | null;
}

describe('the front desk takes in a car for which a place is kept', () => {
  let shop: ShopUnderTest;
  let floor: FloorBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest({ now: at('07:30') });
    floor = new FloorBuilder(shop);
    for (const weekday of [1, 2, 3, 4, 5])
      await floor.shift(shop.technician.staffId, weekday, 8 * 60, 17 * 60);
    await floor.bay({ capacityKg: 3500 });
  }, 60_000);
  afterAll(async () => {
    await shop.stop();
  });
  beforeEach(() => {
    shop.clock.set(new Date(at('07:30')));
  });

  const hold = async (of: object, day: string): Promise<Kept> => {
    const question = { ...of, work: [{ title: 'Brakes at the front', hundredths: 50, needsLift: true }] };
    const asked = await shop.frontDesk.post('/plan/offers', { ...question, brought: [{ day }] }).expect(200);
    const [offer] = asked.body.offers;
    const places = offer.places.map(
      ({ work, bayId, technicianId, startsAt, endsAt }: Record<string, unknown>) => ({
        ...{ work, bayId, technicianId, startsAt, endsAt },
      }),
    );
    const reservation = { ...question, arrivesAt: offer.arrivesAt, places };
    return (await shop.frontDesk.post('/reservations', reservation).expect(201)).body as Kept;
  };
  const keep = async (of: object, whom: object = {}, day = '2026-03-11'): Promise<Kept> => {
    const held = await hold(of, day);
    return (await shop.frontDesk.post(`/reservations/${held.id}/take`, whom).expect(200)).body as Kept;
  };
  const takeIn = (car: Car, more: object = {}) =>
    shop.frontDesk.post('/repair-orders', {
      ...{ vehicleId: car.vehicleId, concern: 'It squeals when braking' },
      ...{ odometer: { reading: 148_210, unit: 'km' }, wantsPartsBack: false, ...more },
    });
  const stands = async ({ id }: Kept): Promise<Kept> =>
    (await shop.frontDesk.get(`/reservations/${id}`).expect(200)).body as Kept;

  it('opens it on the reservation that was named, with the time that was told on the phone', async () => {
    const car = await aCar(shop);
    const kept = await keep(
      { weightKg: 1500 },
      { customerName: 'Ines Halloway', phone: '+1 202 555 0111', vehicleWords: 'a grey Corvane estate' },
      '2026-03-12',
    );
    const opened = (await takeIn(car, { reservationId: kept.id }).expect(201)).body;
    expect(opened).toMatchObject({
      ...{ promisedAt: kept.promisedAt, reservation: { id: kept.id, number: kept.number } },
    });
    expect(await stands(kept)).toMatchObject({
      ...{ state: 'taken', repairOrderId: opened.id, vehicleId: car.vehicleId, customerId: car.customerId },
    });
  });

  it('finds by itself what is kept for this vehicle, or for its customer, today', async () => {
    const car = await aCar(shop);
    const tomorrow = await keep({ vehicleId: car.vehicleId }, {}, '2026-03-12');
    const today = await keep({ vehicleId: car.vehicleId });
    const opened = (await takeIn(car).expect(201)).body;
    expect(opened.reservation).toEqual({ id: today.id, number: today.number });
    expect((await stands(tomorrow)).repairOrderId).toBeNull();
    const other = await aCar(shop);
    const words = await keep(
      { weightKg: 1500 },
      { customerId: other.customerId, vehicleWords: 'her other car' },
    );
    const promisedAt = at('16:45');
    const said = (await takeIn(other, { promisedAt }).expect(201)).body;
    expect(said).toMatchObject({
      ...{ reservation: { id: words.id }, promisedAt: new Date(promisedAt).toISOString() },
    });
  });

  it('leaves it alone where the desk says so, where two could be meant, and what is only held', async () => {
    const [car, two, phone] = [await aCar(shop), await aCar(shop), await aCar(shop)];
    const kept = await keep({ vehicleId: car.vehicleId });
    const opened = (await takeIn(car, { reservationId: null }).expect(201)).body;
    expect(opened).toMatchObject({ reservation: null, promisedAt: null });
    expect((await stands(kept)).repairOrderId).toBeNull();
    await keep({ vehicleId: two.vehicleId });
    await keep({ vehicleId: two.vehicleId });
    expect((await takeIn(two).expect(201)).body.reservation).toBeNull();
    await hold({ vehicleId: phone.vehicleId }, '2026-03-11');
    expect((await takeIn(phone).expect(201)).body.reservation).toBeNull();
  });

  it('names the field of a reservation that cannot be meant, and opens nothing', async () => {
    const [car, other] = [await aCar(shop), await aCar(shop)];
    const refused = async (reservationId: string, status = 409) => {
      const { body } = await takeIn(car, { reservationId }).expect(status);
      expect(body.fields).toMatchObject([{ pointer: '/reservationId' }]);
      return body.code as string;
    };
    const held = await hold({ vehicleId: car.vehicleId }, '2026-03-11');
    expect(await refused(held.id)).toBe('reservation-state');
    const forOther = await keep({ vehicleId: other.vehicleId });
    expect(await refused(forOther.id)).toBe('reservation-for-another-vehicle');
    await takeIn(other).expect(201);
    expect(await refused(forOther.id)).toBe('reservation-state');
    await shop.frontDesk.delete(`/reservations/${held.id}`, undefined, { 'if-match': '*' }).expect(204);
    expect(await refused(held.id)).toBe('reservation-over');
    expect(await refused(car.vehicleId, 404)).toBe('not-found');
    expect(await refused('next week', 422)).toBe('request-invalid');
    const { body } = await shop.frontDesk.get(`/repair-orders?vehicleId=${car.vehicleId}`).expect(200);
    expect(body.items).toEqual([]);
  });

  it('of two desks that take in a car on one reservation one comes second', async () => {
    const [car, twin] = [await aCar(shop), await aCar(shop)];
    const kept = await keep(
      { weightKg: 1500 },
      { customerName: 'Ines Halloway', phone: '+1 202 555 0111', vehicleWords: 'one of two vans' },
    );
    const reservationId = kept.id;
    const both = await Promise.all([takeIn(car, { reservationId }), takeIn(twin, { reservationId })]);
    expect(both.map(({ status }) => status).sort()).toEqual([201, 409]);
  });
});
