ALTER TABLE "stock_post" ADD COLUMN "expired_reason" TEXT NOT NULL DEFAULT '',
ADD COLUMN "transfer_id" UUID;

ALTER TABLE "stock_move" ADD COLUMN "from_serial" BOOLEAN NOT NULL DEFAULT false,
ADD COLUMN "owner" TEXT NOT NULL DEFAULT 'us',
ADD COLUMN "owner_id" UUID,
ADD COLUMN "to_serial" BOOLEAN NOT NULL DEFAULT false,
ADD COLUMN "unit_cost" DECIMAL(14,4);

CREATE TABLE "stock_balance" (
    "id" BIGSERIAL NOT NULL,
    "place_id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "lot" TEXT,
    "owner" TEXT NOT NULL DEFAULT 'us',
    "owner_id" UUID,
    "part_id" UUID,
    "on_hand" DECIMAL(18,6) NOT NULL,

    CONSTRAINT "stock_balance_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "lot" (
    "id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "received_on" DATE,
    "expires_on" DATE,
    "preserved_on" DATE,
    "preserve_by" DATE,
    "held" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "lot_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "item_keeping" (
    "item_id" UUID NOT NULL,
    "preserve_days" INTEGER NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "item_keeping_pkey" PRIMARY KEY ("item_id")
);

CREATE TABLE "item_cost" (
    "item_id" UUID NOT NULL,
    "average" DECIMAL(18,6) NOT NULL,

    CONSTRAINT "item_cost_pkey" PRIMARY KEY ("item_id")
);

CREATE TABLE "reservation" (
    "id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "place_id" UUID NOT NULL,
    "job_id" UUID,
    "visit_id" UUID,
    "quantity" DECIMAL(18,6) NOT NULL,
    "taken" DECIMAL(18,6) NOT NULL DEFAULT 0,
    "needed_on" DATE NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "made_at" TIMESTAMPTZ(3) NOT NULL,
    "made_by" TEXT NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "outcome" TEXT,

    CONSTRAINT "reservation_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "transfer" (
    "id" UUID NOT NULL,
    "from_place_id" UUID NOT NULL,
    "to_place_id" UUID NOT NULL,
    "sent_at" TIMESTAMPTZ(3) NOT NULL,
    "sent_by" TEXT NOT NULL,
    "expected_on" DATE,
    "note" TEXT NOT NULL DEFAULT '',
    "ended_at" TIMESTAMPTZ(3),

    CONSTRAINT "transfer_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "repair_trip" (
    "id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "part_id" UUID NOT NULL,
    "from_place_id" UUID NOT NULL,
    "repair_place_id" UUID NOT NULL,
    "sent_at" TIMESTAMPTZ(3) NOT NULL,
    "sent_by" TEXT NOT NULL,
    "expected_on" DATE,
    "fault" TEXT NOT NULL,
    "counters" JSONB NOT NULL,
    "back_at" TIMESTAMPTZ(3),
    "back_by" TEXT,
    "outcome" TEXT,
    "done" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "repair_trip_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "stock_count" (
    "id" UUID NOT NULL,
    "place_id" UUID NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'open',
    "blind" BOOLEAN NOT NULL DEFAULT true,
    "lines_on_page" INTEGER NOT NULL DEFAULT 20,
    "note" TEXT NOT NULL DEFAULT '',
    "started_at" TIMESTAMPTZ(3) NOT NULL,
    "started_by" TEXT NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" TEXT,
    "post_id" UUID,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "stock_count_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "count_line" (
    "id" UUID NOT NULL,
    "count_id" UUID NOT NULL,
    "no" INTEGER NOT NULL,
    "item_id" UUID NOT NULL,
    "lot" TEXT,
    "owner" TEXT NOT NULL DEFAULT 'us',
    "owner_id" UUID,
    "part_id" UUID,

    CONSTRAINT "count_line_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "count_look" (
    "id" BIGSERIAL NOT NULL,
    "line_id" UUID NOT NULL,
    "counted" DECIMAL(18,6) NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "entered_at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID NOT NULL,
    "by" TEXT NOT NULL,

    CONSTRAINT "count_look_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "stock_post_transfer_id_idx" ON "stock_post"("transfer_id");

CREATE INDEX "stock_move_item_id_lot_idx" ON "stock_move"("item_id", "lot");

CREATE INDEX "stock_balance_item_id_idx" ON "stock_balance"("item_id");

CREATE INDEX "stock_balance_part_id_idx" ON "stock_balance"("part_id");


CREATE INDEX "lot_expires_on_idx" ON "lot"("expires_on");

CREATE INDEX "lot_preserve_by_idx" ON "lot"("preserve_by");

CREATE UNIQUE INDEX "lot_item_id_code_key" ON "lot"("item_id", "code");

CREATE INDEX "reservation_item_id_place_id_idx" ON "reservation"("item_id", "place_id");

CREATE INDEX "reservation_place_id_idx" ON "reservation"("place_id");

CREATE INDEX "reservation_job_id_idx" ON "reservation"("job_id");

CREATE INDEX "reservation_visit_id_idx" ON "reservation"("visit_id");

CREATE INDEX "transfer_from_place_id_idx" ON "transfer"("from_place_id");

CREATE INDEX "transfer_to_place_id_idx" ON "transfer"("to_place_id");

CREATE INDEX "repair_trip_part_id_idx" ON "repair_trip"("part_id");

CREATE INDEX "repair_trip_item_id_idx" ON "repair_trip"("item_id");

CREATE INDEX "repair_trip_repair_place_id_idx" ON "repair_trip"("repair_place_id");

CREATE INDEX "stock_count_place_id_idx" ON "stock_count"("place_id");

CREATE INDEX "count_line_item_id_idx" ON "count_line"("item_id");

CREATE UNIQUE INDEX "count_line_count_id_no_key" ON "count_line"("count_id", "no");

CREATE INDEX "count_look_line_id_idx" ON "count_look"("line_id");

ALTER TABLE "stock_post" ADD CONSTRAINT "stock_post_transfer_id_fkey" FOREIGN KEY ("transfer_id") REFERENCES "transfer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "stock_balance" ADD CONSTRAINT "stock_balance_place_id_fkey" FOREIGN KEY ("place_id") REFERENCES "place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "stock_balance" ADD CONSTRAINT "stock_balance_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "stock_balance" ADD CONSTRAINT "stock_balance_part_id_fkey" FOREIGN KEY ("part_id") REFERENCES "part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "lot" ADD CONSTRAINT "lot_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "item_keeping" ADD CONSTRAINT "item_keeping_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "item_cost" ADD CONSTRAINT "item_cost_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "reservation" ADD CONSTRAINT "reservation_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "reservation" ADD CONSTRAINT "reservation_place_id_fkey" FOREIGN KEY ("place_id") REFERENCES "place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "transfer" ADD CONSTRAINT "transfer_from_place_id_fkey" FOREIGN KEY ("from_place_id") REFERENCES "place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "transfer" ADD CONSTRAINT "transfer_to_place_id_fkey" FOREIGN KEY ("to_place_id") REFERENCES "place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "repair_trip" ADD CONSTRAINT "repair_trip_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "repair_trip" ADD CONSTRAINT "repair_trip_part_id_fkey" FOREIGN KEY ("part_id") REFERENCES "part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "repair_trip" ADD CONSTRAINT "repair_trip_from_place_id_fkey" FOREIGN KEY ("from_place_id") REFERENCES "place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "repair_trip" ADD CONSTRAINT "repair_trip_repair_place_id_fkey" FOREIGN KEY ("repair_place_id") REFERENCES "place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "stock_count" ADD CONSTRAINT "stock_count_place_id_fkey" FOREIGN KEY ("place_id") REFERENCES "place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "count_line" ADD CONSTRAINT "count_line_count_id_fkey" FOREIGN KEY ("count_id") REFERENCES "stock_count"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "count_line" ADD CONSTRAINT "count_line_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "count_line" ADD CONSTRAINT "count_line_part_id_fkey" FOREIGN KEY ("part_id") REFERENCES "part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "count_look" ADD CONSTRAINT "count_look_line_id_fkey" FOREIGN KEY ("line_id") REFERENCES "count_line"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "place" DROP CONSTRAINT "place_kind";
ALTER TABLE "place" ADD CONSTRAINT "place_kind" CHECK (CASE "kind" WHEN 'van' THEN "site_id" IS NULL AND "person_id" IS NOT NULL
  WHEN 'site' THEN "site_id" IS NOT NULL AND "person_id" IS NULL
  ELSE "kind" IN ('store', 'quarantine', 'transit', 'repair') AND "site_id" IS NULL AND "person_id" IS NULL END);
CREATE UNIQUE INDEX "place_one_transit" ON "place"("kind") WHERE "kind" = 'transit';
ALTER TABLE "stock_post" DROP CONSTRAINT "stock_post_kind";
ALTER TABLE "stock_post" ADD CONSTRAINT "stock_post_kind" CHECK ("kind" IN ('receive', 'use', 'consume', 'transfer', 'send', 'arrive', 'return', 'repair', 'repaired', 'scrap', 'correct', 'count', 'reverse')
  AND ("kind" = 'reverse') = ("reverses" IS NOT NULL));
ALTER TABLE "stock_move" ADD CONSTRAINT "stock_move_owner" CHECK ("owner" IN ('us', 'client', 'supplier') AND ("owner" = 'us') = ("owner_id" IS NULL));
ALTER TABLE "stock_move" ADD CONSTRAINT "stock_move_serial" CHECK (NOT ("from_serial" OR "to_serial") OR "part_id" IS NOT NULL AND "quantity" = 1);
ALTER TABLE "stock_move" ADD CONSTRAINT "stock_move_unit_cost" CHECK ("unit_cost" >= 0);
ALTER TABLE "stock_balance" ADD CONSTRAINT "stock_balance_on_hand" CHECK ("on_hand" > 0 AND ("part_id" IS NULL OR "on_hand" = 1));
ALTER TABLE "stock_balance" ADD CONSTRAINT "stock_balance_owner" CHECK ("owner" IN ('us', 'client', 'supplier') AND ("owner" = 'us') = ("owner_id" IS NULL));
-- One serial number lies at one place.
CREATE UNIQUE INDEX "stock_balance_serial" ON "stock_balance"("part_id") WHERE "part_id" IS NOT NULL;
ALTER TABLE "lot" ADD CONSTRAINT "lot_days" CHECK ("preserve_by" >= "preserved_on");
ALTER TABLE "item_keeping" ADD CONSTRAINT "item_keeping_days" CHECK ("preserve_days" BETWEEN 1 AND 3660);
ALTER TABLE "item_cost" ADD CONSTRAINT "item_cost_average" CHECK ("average" >= 0);
ALTER TABLE "reservation" ADD CONSTRAINT "reservation_values" CHECK ("quantity" > 0 AND "taken" BETWEEN 0 AND "quantity" AND coalesce("job_id", "visit_id") IS NOT NULL
  AND ("ended_at" IS NULL) = ("outcome" IS NULL) AND "outcome" IN ('taken', 'released'));
CREATE INDEX "reservation_open" ON "reservation"("place_id", "item_id") WHERE "ended_at" IS NULL;
ALTER TABLE "transfer" ADD CONSTRAINT "transfer_places" CHECK ("from_place_id" <> "to_place_id");
ALTER TABLE "repair_trip" ADD CONSTRAINT "repair_trip_outcome" CHECK ("outcome" IN ('repaired', 'overhauled', 'not repaired', 'scrapped') AND ("outcome" IS NULL) = ("back_at" IS NULL));
CREATE UNIQUE INDEX "repair_trip_open" ON "repair_trip"("part_id") WHERE "back_at" IS NULL;
ALTER TABLE "stock_count" ADD CONSTRAINT "stock_count_values" CHECK ("state" IN ('open', 'closed', 'dropped') AND ("state" = 'open') = ("ended_at" IS NULL) AND "lines_on_page" BETWEEN 1 AND 200);
CREATE UNIQUE INDEX "stock_count_open" ON "stock_count"("place_id") WHERE "state" = 'open';
ALTER TABLE "count_look" ADD CONSTRAINT "count_look_counted" CHECK ("counted" >= 0);

-- One line is one line, also where it has no lot, no owner but us and no serial number.
CREATE UNIQUE INDEX "stock_balance_line" ON "stock_balance"("place_id", "item_id", coalesce("lot", ''),
  coalesce("owner_id", '00000000-0000-0000-0000-000000000000'), coalesce("part_id", '00000000-0000-0000-0000-000000000000'));

-- What each move puts to a place and takes from one. A part that was told before serial numbers were counted is not counted.
CREATE VIEW "stock_effect" WITH (security_invoker = true) AS
  SELECT "id", "post_id", "to_place_id" AS "place_id", "item_id", "lot", "owner", "owner_id", CASE WHEN "to_serial" THEN "part_id" END AS "part_id", "quantity"
    FROM "stock_move" WHERE "to_place_id" IS NOT NULL
  UNION ALL
  SELECT "id", "post_id", "from_place_id", "item_id", "lot", "owner", "owner_id", CASE WHEN "from_serial" THEN "part_id" END, -"quantity"
    FROM "stock_move" WHERE "from_place_id" IS NOT NULL;

INSERT INTO "stock_balance" ("place_id", "item_id", "lot", "on_hand")
  SELECT "place_id", "item_id", "lot", sum("quantity") FROM "stock_effect" GROUP BY "place_id", "item_id", "lot" HAVING sum("quantity") > 0 ORDER BY min("id");
INSERT INTO "lot" ("id", "item_id", "code", "received_on")
  SELECT gen_random_uuid(), m."item_id", m."lot", (min(p."at") AT TIME ZONE 'UTC')::date FROM "stock_move" m JOIN "stock_post" p ON p."id" = m."post_id"
   WHERE m."lot" IS NOT NULL GROUP BY m."item_id", m."lot";

-- What the ledger must never hold: no row, no fault. For whoever runs the service to ask at any time.
-- Moves of one item at one place are entered one after the other, so that their numbers tell the order.
DROP VIEW "stock_fault";
CREATE VIEW "stock_fault" WITH (security_invoker = true) AS
  WITH "running" AS (
    SELECT *, sum("quantity") OVER (PARTITION BY "place_id", "item_id", "lot", "owner_id", "part_id" ORDER BY "id") AS "on_hand" FROM "stock_effect"
  ), "total" AS (
    SELECT "place_id", "item_id", "lot", "owner_id", "part_id", sum("quantity") AS "quantity" FROM "stock_effect"
     GROUP BY "place_id", "item_id", "lot", "owner_id", "part_id" HAVING sum("quantity") <> 0
  ), "apart" AS (
    SELECT "place_id", "item_id", "lot", "owner_id", "part_id", "quantity" FROM "total"
    EXCEPT SELECT "place_id", "item_id", "lot", "owner_id", "part_id", "on_hand" FROM "stock_balance"
  ), "unfounded" AS (
    SELECT "place_id", "item_id", "lot", "owner_id", "part_id", "on_hand" FROM "stock_balance"
    EXCEPT SELECT "place_id", "item_id", "lot", "owner_id", "part_id", "quantity" FROM "total"
  )
  SELECT 'below zero' AS "fault", "post_id", "place_id", "item_id", "lot", "on_hand" AS "quantity" FROM "running" WHERE "on_hand" < 0
  UNION ALL
  SELECT 'post without moves', p."id", NULL, NULL, NULL, NULL FROM "stock_post" p WHERE NOT EXISTS (SELECT 1 FROM "stock_move" m WHERE m."post_id" = p."id")
  UNION ALL
  SELECT 'not all taken back', r."reverses", e."place_id", e."item_id", e."lot", sum(e."quantity")
    FROM "stock_post" r JOIN "stock_effect" e ON e."post_id" IN (r."id", r."reverses")
   WHERE r."reverses" IS NOT NULL GROUP BY r."reverses", e."place_id", e."item_id", e."lot", e."owner_id", e."part_id" HAVING sum(e."quantity") <> 0
  UNION ALL
  SELECT 'moves without their balance', NULL, "place_id", "item_id", "lot", "quantity" FROM "apart"
  UNION ALL
  SELECT 'balance without its moves', NULL, "place_id", "item_id", "lot", "on_hand" FROM "unfounded"
  UNION ALL
  SELECT 'two owners of one name', NULL, b."place_id", b."item_id", b."lot", b."on_hand" FROM "stock_balance" b
   WHERE EXISTS (SELECT 1 FROM "stock_balance" o WHERE o."owner_id" = b."owner_id" AND o."owner" <> b."owner")
  UNION ALL
  SELECT 'lot without a record', m."post_id", NULL, m."item_id", m."lot", m."quantity" FROM "stock_move" m
   WHERE m."lot" IS NOT NULL AND NOT EXISTS (SELECT 1 FROM "lot" l WHERE l."item_id" = m."item_id" AND l."code" = m."lot")
  UNION ALL
  SELECT 'ended transfer with goods on the way', min(e."post_id"::text)::uuid, e."place_id", e."item_id", e."lot", sum(e."quantity")
    FROM "transfer" t JOIN "stock_post" p ON p."transfer_id" = t."id" JOIN "stock_effect" e ON e."post_id" = p."id" JOIN "place" w ON w."id" = e."place_id" AND w."kind" = 'transit'
   GROUP BY t."id", e."place_id", e."item_id", e."lot", e."owner_id", e."part_id"
  HAVING (sum(e."quantity") <> 0 AND bool_or(t."ended_at" IS NOT NULL)) OR sum(e."quantity") < 0;

GRANT SELECT ON "stock_effect", "stock_fault" TO skidkeep_app;
GRANT SELECT, INSERT, UPDATE, DELETE ON "stock_balance", "lot", "item_keeping", "item_cost", "reservation", "transfer", "repair_trip", "stock_count", "count_line", "count_look" TO skidkeep_app;
GRANT USAGE ON ALL SEQUENCES IN SCHEMA public TO skidkeep_app;
