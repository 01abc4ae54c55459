CREATE TABLE "place" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "site_id" UUID,
    "person_id" UUID,
    "note" TEXT NOT NULL DEFAULT '',
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "place_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "stock_post" (
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "entered_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,
    "by" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "request_hash" TEXT NOT NULL,
    "job_id" UUID,
    "report_id" UUID,
    "reverses" UUID,

    CONSTRAINT "stock_post_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "stock_move" (
    "id" BIGSERIAL NOT NULL,
    "post_id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "lot" TEXT,
    "part_id" UUID,
    "quantity" DECIMAL(18,6) NOT NULL,
    "from_place_id" UUID,
    "to_place_id" UUID,
    "correction" BOOLEAN NOT NULL DEFAULT false,

    CONSTRAINT "stock_move_pkey" PRIMARY KEY ("id")
);

CREATE UNIQUE INDEX "place_name_key" ON "place"("name");

CREATE UNIQUE INDEX "stock_post_reverses_key" ON "stock_post"("reverses");

CREATE INDEX "stock_post_job_id_idx" ON "stock_post"("job_id");

CREATE INDEX "stock_move_post_id_idx" ON "stock_move"("post_id");

CREATE INDEX "stock_move_from_place_id_item_id_idx" ON "stock_move"("from_place_id", "item_id");

CREATE INDEX "stock_move_to_place_id_item_id_idx" ON "stock_move"("to_place_id", "item_id");

ALTER TABLE "place" ADD CONSTRAINT "place_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "place" ADD CONSTRAINT "place_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "stock_move" ADD CONSTRAINT "stock_move_post_id_fkey" FOREIGN KEY ("post_id") REFERENCES "stock_post"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "stock_move" ADD CONSTRAINT "stock_move_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "stock_move" ADD CONSTRAINT "stock_move_part_id_fkey" FOREIGN KEY ("part_id") REFERENCES "part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "stock_move" ADD CONSTRAINT "stock_move_from_place_id_fkey" FOREIGN KEY ("from_place_id") REFERENCES "place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "stock_move" ADD CONSTRAINT "stock_move_to_place_id_fkey" FOREIGN KEY ("to_place_id") REFERENCES "place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "place" ADD CONSTRAINT "place_kind" CHECK (CASE "kind" WHEN 'store' THEN "site_id" IS NULL AND "person_id" IS NULL
  WHEN 'van' THEN "site_id" IS NULL AND "person_id" IS NOT NULL WHEN 'site' THEN "site_id" IS NOT NULL AND "person_id" IS NULL ELSE false END);
ALTER TABLE "stock_post" ADD CONSTRAINT "stock_post_kind" CHECK ("kind" IN ('receive', 'use', 'transfer', 'return', 'scrap', 'correct', 'reverse') AND ("kind" = 'reverse') = ("reverses" IS NOT NULL));
ALTER TABLE "stock_move" ADD CONSTRAINT "stock_move_quantity" CHECK ("quantity" > 0);
ALTER TABLE "stock_move" ADD CONSTRAINT "stock_move_places" CHECK (coalesce("from_place_id", "to_place_id") IS NOT NULL AND "from_place_id" IS DISTINCT FROM "to_place_id");

-- What the ledger must never hold: no row, no fault. For whoever runs the service to ask at any time.
-- Moves of one item at one place are entered one after the other, so that their numbers tell the order.
CREATE VIEW "stock_fault" WITH (security_invoker = true) AS
  WITH "effect" AS (
    SELECT "id", "post_id", "to_place_id" AS "place_id", "item_id", "lot", "quantity" FROM "stock_move" WHERE "to_place_id" IS NOT NULL
    UNION ALL
    SELECT "id", "post_id", "from_place_id", "item_id", "lot", -"quantity" FROM "stock_move" WHERE "from_place_id" IS NOT NULL
  ), "running" AS (
    SELECT *, sum("quantity") OVER (PARTITION BY "place_id", "item_id", "lot" ORDER BY "id") AS "on_hand" FROM "effect"
  )
  SELECT 'below zero' AS "fault", "post_id", "place_id", "item_id", "lot", "on_hand" AS "quantity" FROM "running" WHERE "on_hand" < 0
  UNION ALL
  SELECT 'post without moves', p."id", NULL, NULL, NULL, NULL FROM "stock_post" p WHERE NOT EXISTS (SELECT 1 FROM "stock_move" m WHERE m."post_id" = p."id")
  UNION ALL
  SELECT 'not all taken back', r."reverses", e."place_id", e."item_id", e."lot", sum(e."quantity")
    FROM "stock_post" r JOIN "effect" e ON e."post_id" IN (r."id", r."reverses")
   WHERE r."reverses" IS NOT NULL GROUP BY r."reverses", e."place_id", e."item_id", e."lot" HAVING sum(e."quantity") <> 0;

GRANT SELECT ON "stock_fault" TO skidkeep_app;
GRANT SELECT, INSERT, UPDATE, DELETE ON "place", "stock_post", "stock_move" TO skidkeep_app;
GRANT USAGE ON ALL SEQUENCES IN SCHEMA public TO skidkeep_app;
