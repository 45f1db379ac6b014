import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import request, { type Response, type Test } from 'supertest';
import sharp from 'sharp';
import { aCar, aStay, aTemplate } from '../support/cars.js';
import { avif, bombPng, gif, hugeJpegLike, phoneJpeg, png, tiff, webp } from '../support/pictures.js';
import { shopUnderTest, type Person, type ShopUnderTest } from '../support/shop-under-test.js';

const pointers = (body: unknown): string[] =>
  (body as { fields: { pointer: string }[] }).fields.map((f) => f.pointer);
/** Tag 34853 of Exif 2.3 (GPS Info IFD Pointer), in the byte order that libexif writes. */
const gpsTag = Buffer.from([0x25, 0x88]);
const NOBODY = '0198a000-0000-7000-8000-000000000000';

describe('a technician photographs a part', () => {
  let shop: ShopUnderTest;
  let stayId: string;
  let inspectionId: string;
  let observationId: string;
  let findingId: string;

  beforeAll(async () => {
    shop = await shopUnderTest();
    const template = await aTemplate(shop);
    const stay = await aStay(shop, await aCar(shop));
    stayId = stay.id;
    const walk = await shop.technician.post(`/repair-orders/${stayId}/inspections`, {
      templateId: template.id,
    });
    inspectionId = walk.body.id as string;
    const lamps = template.stations[0]?.checkpoints[1]?.id ?? '';
    const seen = await request(`${shop.url}/api/v1`)
      .put(`/inspections/${inspectionId}/observations/${lamps}`)
      .set('authorization', `Bearer ${shop.technician.token}`)
      .send({ verdict: 'repair', mayDrive: 'yes' })
      .expect(200);
    observationId = seen.body.id as string;
    const found = await shop.technician.post(`/repair-orders/${stayId}/findings`, {
      title: 'Caliper slide seized',
      verdict: 'repair',
      mayDrive: 'yes',
    });
    findingId = found.body.id as string;
  });
  afterAll(async () => {
    await shop.stop();
  });

  interface Sending {
    readonly who?: Person;
    readonly key?: string;
    readonly name?: string;
    readonly type?: string;
  }

  function send(path: string, file: Buffer, o: Sending = {}): Test {
    const post = request(`${shop.url}/api/v1`)
      .post(path)
      .set('authorization', `Bearer ${(o.who ?? shop.technician).token}`);
    return (o.key === undefined ? post : post.set('idempotency-key', o.key)).attach('photo', file, {
      filename: o.name ?? 'IMG_0001.JPG',
      contentType: o.type ?? 'image/jpeg',
    });
  }

  const toFinding = (file: Buffer, o: Sending = {}): Test => send(`/findings/${findingId}/photos`, file, o);
  const photosOfFinding = async (): Promise<{ id: string }[]> => {
    const { body } = await shop.frontDesk.get(`/repair-orders/${stayId}/findings`).expect(200);
    return (
      (body.items as { id: string; photos: { id: string }[] }[]).find((f) => f.id === findingId)?.photos ?? []
    );
  };
  const fetched = async (id: string, size = 'full'): Promise<Buffer> =>
    (await shop.frontDesk.get(`/photos/${id}?size=${size}`).buffer(true).parse(binary).expect(200))
      .body as Buffer;

  function binary(answer: Response, done: (error: Error | null, body: Buffer) => void): void {
    const response = answer as unknown as NodeJS.ReadableStream;
    const chunks: Buffer[] = [];
    response.on('data', (chunk: Buffer) => chunks.push(chunk));
    response.on('end', () => done(null, Buffer.concat(chunks)));
  }

  it('which is kept upright, without the place or the name that the phone wrote into it', async () => {
    const original = await phoneJpeg({ width: 640, height: 400 });
    const told = await sharp(original).metadata();
    expect(told).toMatchObject({ orientation: 6, exif: expect.any(Buffer) as Buffer });
    expect(original.includes('secret-note')).toBe(true);
    expect(told.exif?.includes(gpsTag)).toBe(true);
    const added = await send(`/observations/${observationId}/photos`, original).expect(201);
    expect(added.body).toMatchObject({ mediaType: 'image/webp', width: 400, height: 640 });
    const kept = await fetched(added.body.id as string);
    const meta = await sharp(kept).metadata();
    expect(meta).toMatchObject({ format: 'webp', width: 400, height: 640 });
    expect([meta.exif, meta.xmp, meta.iptc, meta.orientation]).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
    for (const secret of ['secret-note', 'Kerslake', 'Lumora', 'GPS', 'EXIF'])
      expect(kept.includes(secret)).toBe(false);
    expect(kept.length).toBe(added.body.bytes);
  });

  it('which is shown on the walk and with its finding, and the walk has a new version', async () => {
    const walk = await shop.frontDesk.get(`/inspections/${inspectionId}`).expect(200);
    const observation = walk.body.stations[0].checkpoints[1].observation;
    expect(observation.photos).toHaveLength(1);
    expect(walk.body.version).toBe(3);
    const list = await shop.frontDesk.get(`/repair-orders/${stayId}/findings`);
    const ofIt = list.body.items.find((f: { id: string }) => f.id === observation.findingId);
    expect(ofIt.photos).toEqual(observation.photos);
  });

  it('which is made small enough for a page and for a list', async () => {
    const added = await toFinding(await png({ width: 3000, height: 1500 }), { name: 'wide.png' }).expect(201);
    expect(added.body).toMatchObject({ width: 2048, height: 1024 });
    const small = await sharp(await fetched(added.body.id as string, 'small')).metadata();
    expect([small.width, small.height]).toEqual([480, 240]);
    const tiny = await toFinding(await png({ width: 100, height: 50, colour: '#112233' })).expect(201);
    expect(tiny.body).toMatchObject({ width: 100, height: 50 });
  });

  it('from any camera that we can read, whatever the file calls itself', async () => {
    for (const [file, name, type] of [
      [await webp(), 'a.jpg', 'image/jpeg'],
      [await avif({ width: 64, height: 48 }), 'b.txt', 'text/plain'],
      [await phoneJpeg({ colour: '#223344' }), 'c', 'application/octet-stream'],
    ] as const) {
      const added = await toFinding(file, { name, type }).expect(201);
      expect(added.body.mediaType).toBe('image/webp');
    }
  });

  it('again, on weak Wi-Fi: the same picture is the one that is there', async () => {
    const picture = await phoneJpeg({ colour: '#334455' });
    const first = await toFinding(picture).expect(201);
    const again = await toFinding(picture).expect(201);
    expect(again.body).toEqual(first.body);
    const both = await Promise.all([1, 2].map(() => toFinding(picture)));
    expect(both.map((r) => [r.status, r.body.id])).toEqual([1, 2].map(() => [201, first.body.id]));
    expect((await photosOfFinding()).filter((p) => p.id === first.body.id)).toHaveLength(1);
  });

  it('under an idempotency key that also stands for the picture', async () => {
    const picture = await phoneJpeg({ colour: '#445566' });
    const key = '"photo-1"';
    const first = await toFinding(picture, { key }).expect(201);
    const again = await toFinding(picture, { key }).expect(201);
    expect(again.body).toEqual(first.body);
    expect(again.headers['idempotent-replayed']).toBe('true');
    const other = await toFinding(await phoneJpeg({ colour: '#556677' }), { key }).expect(422);
    expect(other.body.code).toBe('idempotency-key-reused');
  });

  it('is shown to people of the shop only, as a picture and nothing else', async () => {
    const [photo] = await photosOfFinding();
    const path = `/photos/${photo?.id ?? ''}`;
    const shown = await shop.technician.get(path).expect(200);
    expect(shown.headers).toMatchObject({
      'content-type': 'image/webp',
      'cache-control': 'private, no-cache',
      'x-content-type-options': 'nosniff',
      'content-security-policy': `default-src 'none'; sandbox`,
    });
    const known = { 'if-none-match': shown.headers['etag'] ?? '' };
    await shop.technician.get(path, known).expect(304);
    await shop.technician.get(`${path}?size=small`, known).expect(200);
    await request(`${shop.url}/api/v1`).get(path).expect(401);
    const stranger = await (await shop.addShop('fifth-yard')).person('manager');
    await stranger.get(path).expect(404);
    await shop.technician.get(`/photos/${NOBODY}`).expect(404);
    const size = await shop.technician.get(`${path}?size=huge`).expect(422);
    expect(pointers(size.body)).toEqual(['/size']);
  });

  it.each<[string, () => Buffer | Promise<Buffer>, number, string]>([
    [
      'a text with the name of a photo',
      () => Buffer.from('not a photo at all, only words'),
      415,
      'unsupported-media-type',
    ],
    [
      'a drawing that could carry a script',
      () => Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script/></svg>'),
      415,
      'unsupported-media-type',
    ],
    ['a moving picture', gif, 415, 'unsupported-media-type'],
    ['a scan', tiff, 415, 'unsupported-media-type'],
    ['an empty file', () => Buffer.alloc(0), 415, 'unsupported-media-type'],
    [
      'the head of a HEIC file',
      () => Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from('ftypheic\0\0\0\0mif1heic')]),
      415,
      'unsupported-media-type',
    ],
    [
      'half a photo',
      async () => (await phoneJpeg({ width: 1200, height: 900 })).subarray(0, 3000),
      422,
      'photo-not-readable',
    ],
    ['a photo of noise', () => hugeJpegLike(2000), 422, 'photo-not-readable'],
    ['a tiny file that unpacks to ten gigabytes', bombPng, 413, 'too-large'],
    ['a file of 26 MiB', () => hugeJpegLike(26 * 1_048_576), 413, 'too-large'],
  ])('is refused: %s', async (_name, file, status, code) => {
    const before = await photosOfFinding();
    const refused = await toFinding(await file());
    expect([refused.status, refused.body.code]).toEqual([status, code]);
    expect(refused.headers['content-type']).toContain('application/problem+json');
    expect(await photosOfFinding()).toEqual(before);
  });

  it('says what is wrong with the request itself', async () => {
    const path = `/findings/${findingId}/photos`;
    const signed = () =>
      request(`${shop.url}/api/v1`).post(path).set('authorization', `Bearer ${shop.technician.token}`);
    expect((await signed().send({ photo: 'base64' }).expect(415)).body.code).toBe('unsupported-media-type');
    const other = await signed()
      .attach('picture', await png(), 'a.png')
      .expect(422);
    expect(pointers(other.body)).toEqual(['/photo']);
    const none = await signed().field('note', 'no photo').expect(422);
    expect(pointers(none.body)).toEqual(['/photo']);
    const two = await signed()
      .attach('photo', await png(), 'a.png')
      .attach('photo', await webp(), 'b.webp');
    expect([two.status, two.body.code]).toEqual([422, 'request-invalid']);
    const cut = await signed()
      .set('content-type', 'multipart/form-data; boundary=xyz')
      .send('--xyz\r\nContent-Disposition: form-data; name="photo"; filename="a"\r\n\r\nabc');
    expect([cut.status, cut.body.code]).toEqual([400, 'malformed-request']);
  });

  it('goes to a part that is there, by anybody of the shop', async () => {
    const picture = await png({ colour: '#778899' });
    await send(`/findings/${NOBODY}/photos`, picture).expect(404);
    await send(`/observations/${NOBODY}/photos`, picture).expect(404);
    await toFinding(picture, { who: shop.frontDesk }).expect(201);
    const stranger = await (await shop.addShop('sixth-yard')).person('technician');
    await toFinding(picture, { who: stranger }).expect(404);
    await send(`/observations/${observationId}/photos`, picture, { who: stranger }).expect(404);
  });

  it('no longer goes to a completed walk, but a resend of one that is there is answered', async () => {
    const picture = await png({ colour: '#99aabb' });
    const first = await send(`/observations/${observationId}/photos`, picture).expect(201);
    await shop.sql(
      'update inspections set completed_at = started_at, completed_by = technician_id where id = $1',
      [inspectionId],
    );
    const resent = await send(`/observations/${observationId}/photos`, picture).expect(201);
    expect(resent.body).toEqual(first.body);
    const late = await send(`/observations/${observationId}/photos`, await png({ colour: '#aabbcc' })).expect(
      409,
    );
    expect(late.body.code).toBe('inspection-completed');
    await expect(
      shop.sql(
        `insert into photos select shop_id, gen_random_uuid(), observation_id, finding_id, storage_key, 'other', media_type, width,
           height, bytes, taken_by, added_at from photos where id = $1`,
        [first.body.id],
      ),
    ).rejects.toMatchObject({ constraint: 'inspections_completed_stays' });
  });

  it('lies on the disk under the shop and its own digest, and nothing half is left behind', async () => {
    const rows = await shop.sql<{ storage_key: string; sha256: string }>(
      'select storage_key, sha256 from photos',
    );
    const { dataDir } = shop;
    for (const { storage_key: key, sha256 } of rows) {
      expect(key).toBe(`${shop.shopId}/${sha256.slice(0, 2)}/${sha256}`);
      for (const size of ['full', 'small'])
        expect(existsSync(join(dataDir, 'photos', `${key}-${size}.webp`))).toBe(true);
    }
    expect(readdirSync(join(dataDir, 'incoming'))).toEqual([]);
    const files = readdirSync(join(dataDir, 'photos'), { recursive: true, encoding: 'utf8' });
    expect(files.filter((f) => f.endsWith('.tmp'))).toEqual([]);
  });
});
