import pg from 'pg';
import { emptyDatabase, type TestDatabase } from '../support/database.js';

describe('names with letters beyond ASCII', () => {
  let database: TestDatabase;
  let client: pg.Client;

  beforeAll(async () => {
    database = await emptyDatabase();
    client = new pg.Client(database.conn);
    await client.connect();
    await client.query('create extension pg_trgm');
  });

  afterAll(async () => {
    await client.end();
    await database.drop();
  });

  it('are found by trigram and in either case', async () => {
    // A cluster whose character type is "C" finds no letter in Żółć and calls the two not alike.
    const found = await client.query(`select similarity('Żółć', 'żółć') as alike, lower('ÜŻ') as lower`);
    expect(found.rows).toEqual([{ alike: 1, lower: 'üż' }]);
  });

  it('sort the same on every machine: by code point', async () => {
    const sorted = await client.query<{ name: string }>(
      `select name from (values ('Żak'), ('Zorn'), ('abel'), ('Ärger')) as names (name) order by name`,
    );
    expect(sorted.rows.map((row) => row.name)).toEqual(['Zorn', 'abel', 'Ärger', 'Żak']);
  });
});
