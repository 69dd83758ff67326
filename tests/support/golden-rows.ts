/**
 * A row for every table, from the version that brought it: what a folder of that version may hold. The columns are
 * named, so that later versions may add to them. A new table needs its row here.
 */
export const GOLDEN_ROWS: readonly { readonly since: number; readonly sql: string }[] = [
  {
    since: 1,
    sql: `
    INSERT INTO setting (key, value) VALUES ('look', 'day');
    INSERT INTO site (id, name, latitude_deg, longitude_deg, height_m, zone, sky_mag)
      VALUES ('site-1', 'Sheep meadow', 48.2, 11.6, 520, 'Europe/Berlin', 20);
    INSERT INTO horizon (site_id, position, azimuth_deg, altitude_deg, name) VALUES ('site-1', 0, 90, 12, 'oak');
    INSERT INTO glow (site_id, position, from_deg, to_deg, brighter_mag) VALUES ('site-1', 0, 350, 20, 1);
    INSERT INTO telescope (id, name, mount, axis_low_cm, axis_high_cm, chair_reach, floor_deg, ceiling_deg)
      VALUES ('telescope-1', 'Old eight inch', 'altaz-hand', 70, 70, 'side', 10, 85);
    INSERT INTO tube (id, telescope_id, position, name, design, aperture_mm, focal_length_mm, obstruction, transmission, has_diagonal)
      VALUES ('tube-1', 'telescope-1', 0, 'main', 'reflector', 203, 1200, 0.25, 0.8, 0);
    INSERT INTO eyepiece (id, telescope_id, position, name, focal_length_mm, apparent_field_deg)
      VALUES ('eyepiece-1', 'telescope-1', 0, 'wide', 25, 52);
    INSERT INTO person (id, name) VALUES ('person-1', 'Ines');
    INSERT INTO night (id, site_id, title, date, opens, closes, state, settings)
      VALUES ('night-1', 'site-1', 'Moon over the meadow', '2026-11-20', '18:30', '21:30', 'planned', '{}');
    INSERT INTO visitors (night_id, position, starts_at, adults, children, seated) VALUES ('night-1', 0, '18:30', 20, 15, 1);
    INSERT INTO station (id, night_id, position, name, kind, telescope_id, person_id, is_for_children)
      VALUES ('station-1', 'night-1', 0, 'By the oak', 'telescope', 'telescope-1', 'person-1', 0);
    INSERT INTO object (key, data) VALUES ('own-comet',
      '{"name":"Comet X","kind":"comet","raDeg":10,"decDeg":20,"magnitude":7,"appeal":3,"appealReason":"new"}');
    INSERT INTO object_name (name, object_key) VALUES ('comet x', 'own-comet');
    INSERT INTO story (object_key, language, field, text, source) VALUES ('m13', 'en', 'say', 'A ball of stars', 'the host');
    INSERT INTO tour (id, night_id, version, made_at, why, seed, steps, inputs_digest, value, seconds, spares, notices)
      VALUES ('tour-1', 'night-1', 1, '2026-11-14T15:00:00.000Z', 'first', 1, 1000, 'abc', 90, 1.5, '[]', '[]');
    INSERT INTO stop (tour_id, position, station_id, target_key, aim, setups, starts_at, ends_at, chance, view, looks, reasons)
      VALUES ('tour-1', 0, 'station-1', 'm13', 'whole', '[]', '2026-11-20T17:30:00.000Z', '2026-11-20T18:00:00.000Z', 0.8, 0.6, 30, '[]');
    INSERT INTO tour_proof (tour_id, made_at, bound) VALUES ('tour-1', '2026-11-14T15:01:00.000Z', 95);
    INSERT INTO mark (key, night_id, station_id, kind, payload, by, received_at, happened_at)
      VALUES ('mark-00001', 'night-1', 'station-1', 'shown', '{"targetKey":"m13"}', 'Ines', '2026-11-20T17:40:00.000Z', '2026-11-20T17:40:00.000Z');
    INSERT INTO phone (id, token_hash, role, name, made_at, expires_at)
      VALUES ('phone-1', '${'a'.repeat(64)}', 'operator', 'Ines', '2026-11-20T17:00:00.000Z', '2026-11-21T05:00:00.000Z');`,
  },
  {
    since: 3,
    sql: "INSERT INTO factor (id, telescope_id, position, name, factor) VALUES ('factor-1', 'telescope-1', 0, '2x', 2)",
  },
  {
    since: 4,
    sql: `INSERT INTO newcomers (site_id, factor, low, high, marks, set_at)
      VALUES ('site-1', 3, 2, 4, 40, '2026-11-21T09:00:00.000Z')`,
  },
  {
    since: 5,
    sql: "INSERT INTO object_before (object_key, until_at, data) VALUES ('own-comet', '2026-11-01T09:00:00.000Z', '{}')",
  },
  // The version that this table was rebuilt in; nothing had ever been kept in it.
  {
    since: 6,
    sql: `INSERT INTO wish (id, night_id, position, kind, station_id, target_key, things)
      VALUES ('wish-1', 'night-1', 0, 'pin', 'station-1', 'm13', '[]')`,
  },
  { since: 7, sql: "INSERT INTO join_turn (night_id, turn) VALUES ('night-1', 1)" },
  {
    since: 8,
    sql: `INSERT INTO night_story (night_id, object_key, language, field, text)
      VALUES ('night-1', 'm13', 'en', 'say', 'Tonight it stands high')`,
  },
  { since: 9, sql: "INSERT INTO date_rules (site_id, rules) VALUES ('site-1', '{}')" },
  {
    since: 10,
    sql: `
    INSERT INTO site_note (site_id, notes) VALUES ('site-1', '{}');
    INSERT INTO checklist (night_id, items, put_at) VALUES ('night-1', '[]', '2026-11-14T15:00:00.000Z');
    INSERT INTO checklist_tick (night_id, item) VALUES ('night-1', 'lamps');
    INSERT INTO class_visit (night_id, visit) VALUES ('night-1', '{}');`,
  },
  {
    since: 11,
    sql: `
    INSERT INTO go_reading (night_id, kind, value, entered_at, entered_by)
      VALUES ('night-1', 'cloud', 40, '2026-11-20T14:00:00.000Z', 'host');
    INSERT INTO go_decision (night_id, state, proposed, why, decided_at, decided_by, decided_name)
      VALUES ('night-1', 'on', 'on', '', '2026-11-20T15:00:00.000Z', 'host', 'Ines');
    INSERT INTO go_plan (night_id, next_word_where, sentence, sentence_facts) VALUES ('night-1', '', '', '');`,
  },
  {
    since: 13,
    sql: `
    INSERT INTO report_edit (night_id, edits, put_at) VALUES ('night-1', '{}', '2026-11-21T09:00:00.000Z');
    INSERT INTO night_closing (night_id, state_before, closed_at) VALUES ('night-1', 'on', '2026-11-21T10:00:00.000Z');`,
  },
]
