-- The book. One table per noun; names are unique in two spaces (item: ingredients and outputs;
-- thing: plates and menus). Columns …_micro are exact decimals in millionths (percentages too:
-- 62.5 % is 62500000), dates ISO 8601. NULL is "not set". Ranges are those of the tables' contract.
-- Foreign keys are NO ACTION and deferred: an act is checked as a whole. Only a unit that does not
-- exist fails at once.
-- '+0 days' makes SQLite reckon with a date: without it, date () gives the 30th of February back.
-- Every index that is not a primary key is written as CREATE INDEX, so that filling an empty book
-- can drop it and make it anew.

CREATE TABLE unit (
  id INTEGER PRIMARY KEY,
  code TEXT NOT NULL UNIQUE,
  base TEXT NOT NULL CHECK (base IN ('g', 'ml', 'each'))
) STRICT;

INSERT INTO unit (code, base) VALUES
  ('mg', 'g'), ('g', 'g'), ('kg', 'g'), ('oz', 'g'), ('lb', 'g'),
  ('ml', 'ml'), ('cl', 'ml'), ('dl', 'ml'), ('l', 'ml'), ('tsp', 'ml'), ('tbsp', 'ml'),
  ('metric-cup', 'ml'), ('us-tsp', 'ml'), ('us-tbsp', 'ml'), ('us-fl-oz', 'ml'),
  ('us-cup', 'ml'), ('us-pt', 'ml'), ('us-qt', 'ml'), ('us-gal', 'ml'), ('imp-fl-oz', 'ml'),
  ('imp-pt', 'ml'), ('imp-qt', 'ml'), ('imp-gal', 'ml'),
  ('each', 'each'), ('dozen', 'each');

CREATE TABLE book (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  name TEXT CHECK (name <> '' AND name = trim (name, char (9, 10, 13, 32))),
  currency TEXT CHECK (currency GLOB '[A-Z][A-Z][A-Z]'),
  wage_per_hour_micro INTEGER CHECK (wage_per_hour_micro >= 0),
  tax_pct_micro INTEGER CHECK (tax_pct_micro >= 0),
  target_pct_micro INTEGER CHECK (target_pct_micro > 0 AND target_pct_micro <= 100000000),
  stale_after_days_micro INTEGER CHECK (stale_after_days_micro >= 0),
  speaks TEXT CHECK (speaks IN ('food-cost', 'gross-profit', 'coefficient')),
  till_with_tax INTEGER CHECK (till_with_tax IN (0, 1)),
  price_steps TEXT CHECK (price_steps IN ('half', 'ninety-five', 'whole'))
) STRICT;

-- An item is bought (ingredient) or made (output) and lends them its id.
CREATE TABLE item (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL CHECK (name <> '' AND name = trim (name, char (9, 10, 13, 32)))
) STRICT;

CREATE UNIQUE INDEX item_by_name ON item (name);

CREATE TABLE ingredient (
  id INTEGER PRIMARY KEY REFERENCES item (id) DEFERRABLE INITIALLY DEFERRED,
  category TEXT CHECK (category <> ''),
  kind TEXT NOT NULL DEFAULT 'food' CHECK (kind IN ('food', 'disposable')),
  unit TEXT NOT NULL CHECK (unit IN ('g', 'ml', 'each')),
  density_g_per_ml_micro INTEGER CHECK (density_g_per_ml_micro > 0),
  piece_g_micro INTEGER CHECK (piece_g_micro > 0),
  trim_yield_pct_micro INTEGER
    CHECK (trim_yield_pct_micro > 0 AND trim_yield_pct_micro <= 1000000000),
  -- A mask of the fourteen groups in the order of the Annex; 0 is none of them, NULL that nobody
  -- has said.
  allergens INTEGER CHECK (allergens BETWEEN 0 AND 16383),
  -- As the label warns: 0 is none of them, NULL that nobody has said.
  may_contain INTEGER CHECK (may_contain BETWEEN 0 AND 16383),
  note TEXT CHECK (note <> '')
) STRICT;

CREATE TABLE supplier (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL CHECK (name <> '' AND name = trim (name, char (9, 10, 13, 32))),
  contact TEXT CHECK (contact <> ''),
  quotes TEXT CHECK (quotes IN ('pack', 'base unit')),
  -- Money of the book, net, a delivery.
  minimum_order_micro INTEGER CHECK (minimum_order_micro >= 0),
  delivery_charge_micro INTEGER CHECK (delivery_charge_micro >= 0),
  note TEXT CHECK (note <> '')
) STRICT;

CREATE UNIQUE INDEX supplier_by_name ON supplier (name);

CREATE TABLE offer (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  ingredient INTEGER NOT NULL REFERENCES ingredient (id) DEFERRABLE INITIALLY DEFERRED,
  supplier INTEGER NOT NULL REFERENCES supplier (id) DEFERRABLE INITIALLY DEFERRED,
  -- Part of the key, so empty is a value: one offer without a code per ingredient and supplier.
  code TEXT NOT NULL DEFAULT '' CHECK (code = trim (code, char (9, 10, 13, 32))),
  pack_count_micro INTEGER NOT NULL CHECK (pack_count_micro > 0),
  pack_size_micro INTEGER NOT NULL CHECK (pack_size_micro > 0),
  pack_unit TEXT NOT NULL REFERENCES unit (code),
  net_pct_micro INTEGER CHECK (net_pct_micro > 0 AND net_pct_micro <= 100000000),
  currency TEXT CHECK (currency GLOB '[A-Z][A-Z][A-Z]'),
  preferred INTEGER NOT NULL DEFAULT 0 CHECK (preferred IN (0, 1)),
  until TEXT CHECK (until GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
                    AND until IS date (until, '+0 days')),
  gtin TEXT CHECK (gtin <> ''),
  position_micro INTEGER CHECK (position_micro >= 0)
) STRICT;

CREATE UNIQUE INDEX offer_by_code ON offer (ingredient, supplier, code);
CREATE INDEX offer_by_supplier ON offer (supplier);

CREATE TABLE price (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  offer INTEGER NOT NULL REFERENCES offer (id) DEFERRABLE INITIALLY DEFERRED,
  from_date TEXT NOT NULL CHECK (from_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
                                 AND from_date IS date (from_date, '+0 days')),
  -- NULL: not to be had from then on.
  price_micro INTEGER CHECK (price_micro >= 0),
  tax_included_pct_micro INTEGER CHECK (tax_included_pct_micro >= 0),
  pack_count_micro INTEGER CHECK (pack_count_micro > 0),
  pack_size_micro INTEGER CHECK (pack_size_micro > 0),
  pack_unit TEXT REFERENCES unit (code)
) STRICT;

CREATE UNIQUE INDEX price_by_date ON price (offer, from_date);

-- A price that was asked about, as far from the one before, and that somebody said is right. It names
-- the offer and the day and not the row: another price that is set in its place, or the same for
-- another pack or in another currency, is asked about again.
CREATE TABLE price_answer (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  offer INTEGER NOT NULL REFERENCES offer (id) DEFERRABLE INITIALLY DEFERRED,
  from_date TEXT NOT NULL CHECK (from_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
                                 AND from_date IS date (from_date, '+0 days')),
  price_micro INTEGER NOT NULL CHECK (price_micro >= 0),
  answered_on TEXT CHECK (answered_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
                          AND answered_on IS date (answered_on, '+0 days')),
  -- What it was answered for; NULL: what the offer has.
  pack_count_micro INTEGER CHECK (pack_count_micro > 0),
  pack_size_micro INTEGER CHECK (pack_size_micro > 0),
  pack_unit TEXT REFERENCES unit (code),
  currency TEXT CHECK (currency GLOB '[A-Z][A-Z][A-Z]')
) STRICT;

CREATE UNIQUE INDEX price_answer_by_date ON price_answer (offer, from_date);

CREATE TABLE rate (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  currency TEXT NOT NULL CHECK (currency GLOB '[A-Z][A-Z][A-Z]'),
  from_date TEXT NOT NULL CHECK (from_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
                                 AND from_date IS date (from_date, '+0 days')),
  rate_micro INTEGER NOT NULL CHECK (rate_micro > 0),
  per_micro INTEGER CHECK (per_micro > 0)
) STRICT;

CREATE UNIQUE INDEX rate_by_date ON rate (currency, from_date);

-- Pictures of plates and preparations, by what they hold: the name is the SHA-256 of the data and the
-- kind of file. A picture never changes and never goes, so it is not journalled: undo gives back the
-- name that a plate had, and what it names is still there.
CREATE TABLE picture (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL CHECK (length (name) = 68 AND substr (name, 1, 64) NOT GLOB '*[^0-9a-f]*'
                            AND substr (name, 65) IN ('.jpg', '.png')),
  data BLOB NOT NULL CHECK (length (data) BETWEEN 1 AND 20971520)
) STRICT;

CREATE UNIQUE INDEX picture_by_name ON picture (name);

CREATE TABLE preparation (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL CHECK (name <> '' AND name = trim (name, char (9, 10, 13, 32))),
  by_products TEXT NOT NULL DEFAULT 'free'
    CHECK (by_products IN ('free', 'weight', 'value', 'credit')),
  active_minutes_micro INTEGER CHECK (active_minutes_micro >= 0),
  smallest_part_micro INTEGER CHECK (smallest_part_micro BETWEEN 0 AND 1000000),
  note TEXT CHECK (note <> ''),
  picture TEXT REFERENCES picture (name) DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE UNIQUE INDEX preparation_by_name ON preparation (name);

CREATE TABLE output (
  id INTEGER PRIMARY KEY REFERENCES item (id) DEFERRABLE INITIALLY DEFERRED,
  preparation INTEGER NOT NULL REFERENCES preparation (id) DEFERRABLE INITIALLY DEFERRED,
  role TEXT NOT NULL CHECK (role IN ('main', 'by-product')),
  amount_micro INTEGER CHECK (amount_micro > 0),
  unit TEXT REFERENCES unit (code),
  yield_pct_micro INTEGER CHECK (yield_pct_micro > 0 AND yield_pct_micro <= 1000000000),
  value_micro INTEGER CHECK (value_micro >= 0),
  density_g_per_ml_micro INTEGER CHECK (density_g_per_ml_micro > 0),
  piece_g_micro INTEGER CHECK (piece_g_micro > 0),
  lost_pct_micro INTEGER CHECK (lost_pct_micro >= 0 AND lost_pct_micro < 100000000),
  CHECK (amount_micro IS NULL OR (yield_pct_micro IS NULL AND unit IS NOT NULL)),
  CHECK (yield_pct_micro IS NULL OR unit IN ('mg', 'g', 'kg', 'oz', 'lb') OR unit IS NULL)
) STRICT;

CREATE UNIQUE INDEX output_main ON output (preparation) WHERE role = 'main';
CREATE INDEX output_by_preparation ON output (preparation);

-- Of what such triggers refuse, a fill asks once at its end (cro-fill.c).
CREATE TRIGGER ingredient_is_no_output BEFORE INSERT ON ingredient
WHEN EXISTS (SELECT 1 FROM output WHERE id = NEW.id)
BEGIN
  SELECT RAISE (ABORT, 'an item is an ingredient or an output, not both');
END;

CREATE TRIGGER output_is_no_ingredient BEFORE INSERT ON output
WHEN EXISTS (SELECT 1 FROM ingredient WHERE id = NEW.id)
BEGIN
  SELECT RAISE (ABORT, 'an item is an ingredient or an output, not both');
END;

-- A thing is sold: a plate or a menu, and lends them its id.
CREATE TABLE thing (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL CHECK (name <> '' AND name = trim (name, char (9, 10, 13, 32)))
) STRICT;

CREATE UNIQUE INDEX thing_by_name ON thing (name);

CREATE TABLE plate (
  id INTEGER PRIMARY KEY REFERENCES thing (id) DEFERRABLE INITIALLY DEFERRED,
  course TEXT CHECK (course <> ''),
  makes_micro INTEGER NOT NULL CHECK (makes_micro > 0),
  per_guest_micro INTEGER CHECK (per_guest_micro > 0),
  price_micro INTEGER CHECK (price_micro >= 0),
  tax_pct_micro INTEGER CHECK (tax_pct_micro >= 0),
  target_pct_micro INTEGER CHECK (target_pct_micro > 0 AND target_pct_micro <= 100000000),
  allowance_pct_micro INTEGER CHECK (allowance_pct_micro >= 0),
  active_minutes_micro INTEGER CHECK (active_minutes_micro >= 0),
  note TEXT CHECK (note <> ''),
  picture TEXT REFERENCES picture (name) DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE TABLE menu (
  id INTEGER PRIMARY KEY REFERENCES thing (id) DEFERRABLE INITIALLY DEFERRED,
  price_micro INTEGER CHECK (price_micro >= 0),
  tax_pct_micro INTEGER CHECK (tax_pct_micro >= 0),
  target_pct_micro INTEGER CHECK (target_pct_micro > 0 AND target_pct_micro <= 100000000),
  note TEXT CHECK (note <> '')
) STRICT;

CREATE TRIGGER plate_is_no_menu BEFORE INSERT ON plate
WHEN EXISTS (SELECT 1 FROM menu WHERE id = NEW.id)
BEGIN
  SELECT RAISE (ABORT, 'a thing is a plate or a menu, not both');
END;

CREATE TRIGGER menu_is_no_plate BEFORE INSERT ON menu
WHEN EXISTS (SELECT 1 FROM plate WHERE id = NEW.id)
BEGIN
  SELECT RAISE (ABORT, 'a thing is a plate or a menu, not both');
END;

CREATE TABLE menu_plate (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  menu INTEGER NOT NULL REFERENCES menu (id) DEFERRABLE INITIALLY DEFERRED,
  plate INTEGER NOT NULL REFERENCES plate (id) DEFERRABLE INITIALLY DEFERRED,
  -- Plates of a menu that share one are alternatives. Part of the key, where NULL is a value.
  choice TEXT CHECK (choice <> '' AND choice = trim (choice, char (9, 10, 13, 32))),
  servings_micro INTEGER CHECK (servings_micro >= 0),
  position_micro INTEGER CHECK (position_micro >= 0),
  share_pct_micro INTEGER CHECK (share_pct_micro BETWEEN 0 AND 100000000)
) STRICT;

CREATE UNIQUE INDEX menu_plate_once ON menu_plate (menu, plate, ifnull (choice, ''));
CREATE INDEX menu_plate_by_plate ON menu_plate (plate);

-- What a plate or a menu is sold for from a date on. NULL: no price of its own from then on.
CREATE TABLE selling_price (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  thing INTEGER NOT NULL REFERENCES thing (id) DEFERRABLE INITIALLY DEFERRED,
  from_date TEXT NOT NULL CHECK (from_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
                                 AND from_date IS date (from_date, '+0 days')),
  price_micro INTEGER CHECK (price_micro >= 0),
  tax_pct_micro INTEGER CHECK (tax_pct_micro >= 0),
  CHECK (price_micro IS NOT NULL OR tax_pct_micro IS NULL)
) STRICT;

CREATE UNIQUE INDEX selling_price_by_date ON selling_price (thing, from_date);

-- Guests expected, and what is in the house already.
CREATE TABLE service (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  date TEXT NOT NULL CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
                            AND date IS date (date, '+0 days')),
  service TEXT NOT NULL CHECK (service <> ''
                               AND service = trim (service, char (9, 10, 13, 32))),
  thing INTEGER NOT NULL REFERENCES thing (id) DEFERRABLE INITIALLY DEFERRED,
  covers_micro INTEGER NOT NULL CHECK (covers_micro >= 0)
) STRICT;

CREATE UNIQUE INDEX service_once ON service (date, service, thing);
CREATE INDEX service_by_thing ON service (thing);

CREATE TABLE service_stock (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  date TEXT NOT NULL CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
                            AND date IS date (date, '+0 days')),
  service TEXT NOT NULL CHECK (service <> ''
                               AND service = trim (service, char (9, 10, 13, 32))),
  item INTEGER NOT NULL REFERENCES item (id) DEFERRABLE INITIALLY DEFERRED,
  amount_micro INTEGER NOT NULL CHECK (amount_micro >= 0),
  unit TEXT NOT NULL REFERENCES unit (code)
) STRICT;

CREATE UNIQUE INDEX service_stock_once ON service_stock (date, service, item);
CREATE INDEX service_stock_by_item ON service_stock (item);

CREATE TABLE recipe_line (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  preparation INTEGER REFERENCES preparation (id) DEFERRABLE INITIALLY DEFERRED,
  plate INTEGER REFERENCES plate (id) DEFERRABLE INITIALLY DEFERRED,
  position_micro INTEGER NOT NULL CHECK (position_micro >= 0),
  item INTEGER NOT NULL REFERENCES item (id) DEFERRABLE INITIALLY DEFERRED,
  amount_micro INTEGER NOT NULL CHECK (amount_micro >= 0),
  unit TEXT NOT NULL REFERENCES unit (code),
  weighed TEXT NOT NULL DEFAULT 'trimmed' CHECK (weighed IN ('whole', 'trimmed')),
  yield_pct_micro INTEGER CHECK (yield_pct_micro > 0 AND yield_pct_micro <= 1000000000),
  recovered_pct_micro INTEGER CHECK (recovered_pct_micro >= 0 AND recovered_pct_micro < 100000000),
  note TEXT CHECK (note <> ''),
  CHECK ((preparation IS NULL) <> (plate IS NULL)),
  CHECK (weighed <> 'whole' OR yield_pct_micro IS NULL)
) STRICT;

CREATE UNIQUE INDEX recipe_line_of_preparation ON recipe_line (preparation, position_micro)
  WHERE preparation IS NOT NULL;
CREATE UNIQUE INDEX recipe_line_of_plate ON recipe_line (plate, position_micro)
  WHERE plate IS NOT NULL;
CREATE INDEX recipe_line_by_item ON recipe_line (item);

CREATE TABLE yield_test (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  test TEXT NOT NULL CHECK (test <> '' AND test = trim (test, char (9, 10, 13, 32))),
  item INTEGER NOT NULL REFERENCES item (id) DEFERRABLE INITIALLY DEFERRED,
  date TEXT NOT NULL CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
                            AND date IS date (date, '+0 days')),
  purchased_g_micro INTEGER NOT NULL CHECK (purchased_g_micro >= 0),
  usable_g_micro INTEGER NOT NULL CHECK (usable_g_micro >= 0),
  note TEXT CHECK (note <> '')
) STRICT;

CREATE UNIQUE INDEX yield_test_by_test ON yield_test (test);
CREATE INDEX yield_test_by_item ON yield_test (item);

CREATE TABLE yield_test_part (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  yield_test INTEGER NOT NULL REFERENCES yield_test (id) DEFERRABLE INITIALLY DEFERRED,
  output INTEGER NOT NULL REFERENCES output (id) DEFERRABLE INITIALLY DEFERRED,
  weight_g_micro INTEGER NOT NULL CHECK (weight_g_micro >= 0)
) STRICT;

CREATE UNIQUE INDEX yield_test_part_once ON yield_test_part (yield_test, output);
CREATE INDEX yield_test_part_by_output ON yield_test_part (output);

-- A plate or a menu, or in words what was sold without one, whose revenue nobody can reckon. Sold
-- below 0 is a void; 0 a refund, which is all revenue (and of version 1 no sale at all, without).
CREATE TABLE sale (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  date TEXT NOT NULL CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
                            AND date IS date (date, '+0 days')),
  thing INTEGER REFERENCES thing (id) DEFERRABLE INITIALLY DEFERRED,
  other TEXT CHECK (other <> '' AND other = trim (other, char (9, 10, 13, 32))),
  sold_micro INTEGER NOT NULL,
  net_revenue_micro INTEGER,
  CHECK ((thing IS NULL) <> (other IS NULL)),
  CHECK (net_revenue_micro IS NOT NULL OR other IS NULL)
) STRICT;

CREATE INDEX sale_by_thing ON sale (thing);

-- What a till calls what it sells, and what that is here. A plate or a menu is named and not referred
-- to: of one that is renamed or removed the till is asked again.
CREATE TABLE till_name (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL CHECK (name <> '' AND name = trim (name, char (9, 10, 13, 32))),
  kind TEXT NOT NULL CHECK (kind IN ('plate', 'menu', 'other', 'none')),
  sold_as TEXT CHECK (sold_as <> '' AND sold_as = trim (sold_as, char (9, 10, 13, 32)))
) STRICT;

CREATE UNIQUE INDEX till_name_by_name ON till_name (name);

CREATE TABLE stock_count (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  date TEXT NOT NULL CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
                            AND date IS date (date, '+0 days')),
  item INTEGER NOT NULL REFERENCES item (id) DEFERRABLE INITIALLY DEFERRED,
  amount_micro INTEGER NOT NULL CHECK (amount_micro >= 0),
  unit TEXT NOT NULL REFERENCES unit (code),
  place TEXT CHECK (place <> '')
) STRICT;

CREATE INDEX stock_count_by_item ON stock_count (item);

-- Amounts and values below 0 are returns and credit notes. The date is that of the delivery.
CREATE TABLE purchase (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  date TEXT NOT NULL CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
                            AND date IS date (date, '+0 days')),
  document_date TEXT
    CHECK (document_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
           AND document_date IS date (document_date, '+0 days')),
  supplier INTEGER REFERENCES supplier (id) DEFERRABLE INITIALLY DEFERRED,
  document TEXT CHECK (document <> ''),
  ingredient INTEGER REFERENCES ingredient (id) DEFERRABLE INITIALLY DEFERRED,
  category TEXT CHECK (category <> ''),
  kind TEXT NOT NULL DEFAULT 'food' CHECK (kind IN ('food', 'disposable', 'other')),
  amount_micro INTEGER,
  unit TEXT REFERENCES unit (code),
  net_value_micro INTEGER NOT NULL,
  CHECK (amount_micro IS NULL OR unit IS NOT NULL)
) STRICT;

CREATE INDEX purchase_by_supplier ON purchase (supplier);
CREATE INDEX purchase_by_ingredient ON purchase (ingredient);

CREATE TABLE adjustment (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  date TEXT NOT NULL CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
                            AND date IS date (date, '+0 days')),
  kind TEXT NOT NULL CHECK (kind IN ('staff-meal', 'promotion', 'waste', 'transfer-in',
                                     'transfer-out', 'other')),
  item INTEGER REFERENCES item (id) DEFERRABLE INITIALLY DEFERRED,
  amount_micro INTEGER CHECK (amount_micro >= 0),
  unit TEXT REFERENCES unit (code),
  net_value_micro INTEGER CHECK (net_value_micro >= 0),
  note TEXT CHECK (note <> ''),
  CHECK (amount_micro IS NULL OR unit IS NOT NULL)
) STRICT;

CREATE INDEX adjustment_by_item ON adjustment (item);

CREATE TABLE month (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  month TEXT NOT NULL CHECK (month GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]'
                             AND month || '-01' IS date (month || '-01', '+0 days')),
  till_net_revenue_micro INTEGER CHECK (till_net_revenue_micro >= 0),
  till_gross_revenue_micro INTEGER CHECK (till_gross_revenue_micro >= 0),
  ledger_purchases_micro INTEGER CHECK (ledger_purchases_micro >= 0),
  -- The day whose recipes the month is costed by; NULL: its last.
  recipes_on TEXT CHECK (recipes_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
                         AND recipes_on IS date (recipes_on, '+0 days')),
  -- Stock entered as one sum, and purchases still to come.
  closing_stock_value_micro INTEGER CHECK (closing_stock_value_micro >= 0),
  late_estimate_micro INTEGER CHECK (late_estimate_micro >= 0),
  closed_at TEXT CHECK (closed_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]*'
                        AND substr (closed_at, 1, 10) IS date (closed_at, '+0 days')),
  reason TEXT CHECK (reason <> ''),
  hash TEXT CHECK (hash <> '')
) STRICT;

CREATE UNIQUE INDEX month_by_month ON month (month);

-- What closing froze. Names are text: a frozen row outlives the thing it is about. A plate or a
-- menu without a part is what was sold of it; with one, what that took. Rows of the other kinds are
-- those that the statement is made of, and its own figures; where several are alike, the number
-- tells them apart.
CREATE TABLE month_row (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  month INTEGER NOT NULL REFERENCES month (id) DEFERRABLE INITIALLY DEFERRED,
  kind TEXT NOT NULL CHECK (kind IN ('plate', 'menu', 'other', 'statement', 'count', 'purchase',
                                     'adjustment')),
  name TEXT NOT NULL CHECK (name <> '' AND name = trim (name, char (9, 10, 13, 32))),
  part_kind TEXT CHECK (part_kind IN ('food', 'disposable', 'by-product', 'plate')),
  part TEXT CHECK (part <> '' AND part = trim (part, char (9, 10, 13, 32))),
  number_micro INTEGER CHECK (number_micro >= 0),
  date TEXT CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'
                   AND date IS date (date, '+0 days')),
  sold_micro INTEGER,
  net_revenue_micro INTEGER,
  price_micro INTEGER CHECK (price_micro >= 0),
  -- Of a part: what of it one sold takes, and what 1,000 g, ml or pieces of it cost, so that
  -- millionths hold a gram's cost to nine places. Of a count, a purchase or an adjustment: its own
  -- amount. cost_micro is money of the whole row.
  unit TEXT REFERENCES unit (code),
  quantity_micro INTEGER,
  cost_micro INTEGER,
  cost_per_1000_micro INTEGER,
  supplier TEXT CHECK (supplier <> ''),
  document TEXT CHECK (document <> ''),
  category TEXT CHECK (category <> ''),
  -- The kind of a purchase or an adjustment.
  row_kind TEXT CHECK (row_kind <> ''),
  note TEXT CHECK (note <> ''),
  CHECK ((part_kind IS NULL) = (part IS NULL))
) STRICT;

CREATE UNIQUE INDEX month_row_once ON month_row (month, kind, name, ifnull (part_kind, ''),
                                                 ifnull (part, ''), ifnull (number_micro, -1));

-- The journal of acts. The newest act without a time is the one now open: it gets its time when it
-- is committed, so that no other connection ever sees an open act, and none can write without one.
-- Nothing here is ever deleted, and acts are made one after the other: the changes of an act are
-- those from its first_change to that of the next act, which saves every act an index.
CREATE TABLE act (
  id INTEGER PRIMARY KEY,
  label TEXT NOT NULL,
  desk TEXT NOT NULL,
  at TEXT,
  -- The local day it counts for: one made before 04:00 belongs to the day before.
  day TEXT,
  verb TEXT NOT NULL CHECK (verb IN ('do', 'undo', 'redo')),
  of INTEGER REFERENCES act (id),
  first_change INTEGER NOT NULL,
  CHECK ((verb = 'do') = (of IS NULL))
) STRICT;

CREATE INDEX act_by_of ON act (of) WHERE of IS NOT NULL;

-- before and after are JSON by column name: NULL before is an inserted row, NULL after a deleted
-- one, and of an update only what moved. A table named '*' stands for a fill, which keeps no rows.
CREATE TABLE change (
  id INTEGER PRIMARY KEY,
  act INTEGER NOT NULL REFERENCES act (id),
  tbl TEXT NOT NULL,
  row INTEGER NOT NULL,
  before TEXT,
  after TEXT,
  CHECK (before IS NOT NULL OR after IS NOT NULL OR tbl = '*')
) STRICT;

CREATE INDEX change_by_row ON change (tbl, row);
