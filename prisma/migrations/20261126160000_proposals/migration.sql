CREATE TABLE "stock_setting" (
    "item_id" UUID NOT NULL,
    "place_id" UUID NOT NULL,
    "service" TEXT,
    "asked" DOUBLE PRECISION,
    "short_cost" DECIMAL(14,4),
    "review_days" INTEGER,
    "minimum" DECIMAL(18,6),
    "maximum" DECIMAL(18,6),
    "criticality" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    "by" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "stock_setting_pkey" PRIMARY KEY ("item_id","place_id")
);

CREATE TABLE "site_supply" (
    "site_id" UUID NOT NULL,
    "place_id" UUID NOT NULL,

    CONSTRAINT "site_supply_pkey" PRIMARY KEY ("site_id")
);

CREATE TABLE "catalogue_fitted" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "fitted_at" TIMESTAMPTZ(3) NOT NULL,
    "items" INTEGER NOT NULL,
    "fit" JSONB NOT NULL,

    CONSTRAINT "catalogue_fitted_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "reorder_run" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "computed_at" TIMESTAMPTZ(3),
    "seen_until" TIMESTAMPTZ(3),
    "lines" INTEGER NOT NULL DEFAULT 0,
    "milliseconds" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "reorder_run_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "reorder_line" (
    "id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "place_id" UUID NOT NULL,
    "computed_at" TIMESTAMPTZ(3) NOT NULL,
    "action" TEXT NOT NULL,
    "quantity" DECIMAL(18,6) NOT NULL,
    "position" DECIMAL(18,6) NOT NULL,
    "on_hand" DECIMAL(18,6) NOT NULL,
    "supplier_id" UUID,
    "order_by" DATE,
    "needed_by" DATE,
    "pace" TEXT NOT NULL,
    "need_mean" DOUBLE PRECISION NOT NULL,
    "detail" JSONB NOT NULL,

    CONSTRAINT "reorder_line_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "reorder_decision" (
    "id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "place_id" UUID NOT NULL,
    "state" TEXT NOT NULL,
    "quantity" DECIMAL(18,6) NOT NULL,
    "proposed" DECIMAL(18,6) NOT NULL,
    "position" DECIMAL(18,6) NOT NULL,
    "supplier_id" UUID,
    "reason" TEXT NOT NULL DEFAULT '',
    "until" DATE,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID NOT NULL,
    "by" TEXT NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" TEXT,
    "ended_why" TEXT,
    "order_id" UUID,

    CONSTRAINT "reorder_decision_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "stock_setting_place_id_idx" ON "stock_setting"("place_id");
CREATE INDEX "site_supply_place_id_idx" ON "site_supply"("place_id");
CREATE INDEX "reorder_line_place_id_idx" ON "reorder_line"("place_id");
CREATE INDEX "reorder_line_action_order_by_idx" ON "reorder_line"("action", "order_by");
CREATE INDEX "reorder_line_supplier_id_idx" ON "reorder_line"("supplier_id");
CREATE UNIQUE INDEX "reorder_line_item_id_place_id_key" ON "reorder_line"("item_id", "place_id");
CREATE INDEX "reorder_decision_item_id_place_id_idx" ON "reorder_decision"("item_id", "place_id");
CREATE INDEX "reorder_decision_ended_at_idx" ON "reorder_decision"("ended_at");

ALTER TABLE "stock_setting" ADD CONSTRAINT "stock_setting_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "stock_setting" ADD CONSTRAINT "stock_setting_place_id_fkey" FOREIGN KEY ("place_id") REFERENCES "place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "site_supply" ADD CONSTRAINT "site_supply_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "site_supply" ADD CONSTRAINT "site_supply_place_id_fkey" FOREIGN KEY ("place_id") REFERENCES "place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "reorder_line" ADD CONSTRAINT "reorder_line_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "reorder_line" ADD CONSTRAINT "reorder_line_place_id_fkey" FOREIGN KEY ("place_id") REFERENCES "place"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "reorder_decision" ADD CONSTRAINT "reorder_decision_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "reorder_decision" ADD CONSTRAINT "reorder_decision_place_id_fkey" FOREIGN KEY ("place_id") REFERENCES "place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Of an item at a place one decision holds at a time.
CREATE UNIQUE INDEX "reorder_decision_live" ON "reorder_decision"("item_id", "place_id") WHERE "ended_at" IS NULL;
-- What goes back to a supplier is no scrap.
ALTER TABLE "stock_post" DROP CONSTRAINT "stock_post_kind";
ALTER TABLE "stock_post" ADD CONSTRAINT "stock_post_kind" CHECK ("kind" IN ('receive', 'use', 'consume', 'transfer', 'send', 'arrive', 'return', 'repair', 'repaired', 'send back', 'scrap', 'correct', 'count', 'reverse')
  AND ("kind" = 'reverse') = ("reverses" IS NOT NULL));
ALTER TABLE "stock_setting" ADD CONSTRAINT "stock_setting_values" CHECK ("service" IN ('fill', 'jobs', 'cost') AND "asked" BETWEEN 0.5 AND 0.9999 AND "short_cost" > 0
  AND "review_days" BETWEEN 0 AND 366 AND "minimum" >= 0 AND "maximum" >= coalesce("minimum", 0) AND "criticality" IN ('stops the skid', 'hampers the skid', 'can wait'));
ALTER TABLE "catalogue_fitted" ADD CONSTRAINT "catalogue_fitted_one_row" CHECK ("id" = 1);
ALTER TABLE "reorder_run" ADD CONSTRAINT "reorder_run_one_row" CHECK ("id" = 1);
INSERT INTO "reorder_run" ("id") VALUES (1);
ALTER TABLE "reorder_line" ADD CONSTRAINT "reorder_line_values" CHECK ("action" IN ('buy', 'transfer', 'nothing') AND "pace" IN ('moving', 'slow', 'dead') AND "quantity" >= 0);
ALTER TABLE "reorder_decision" ADD CONSTRAINT "reorder_decision_values" CHECK ("state" IN ('accepted', 'changed', 'dismissed') AND "quantity" >= 0
  AND ("state" = 'accepted' OR "reason" <> '') AND ("ended_at" IS NULL) = ("ended_why" IS NULL));

GRANT SELECT, INSERT, UPDATE, DELETE ON "stock_setting", "site_supply", "catalogue_fitted", "reorder_run", "reorder_line", "reorder_decision" TO skidkeep_app;
