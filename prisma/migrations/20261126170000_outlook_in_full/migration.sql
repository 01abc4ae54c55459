CREATE TABLE "site_price" (
    "site_id" UUID NOT NULL,
    "unplanned" DECIMAL(14,4),
    "recovery_clean" DECIMAL(14,4),
    "energy_kwh" DECIMAL(14,4),
    "water_m3" DECIMAL(14,4),
    "lost_share" DOUBLE PRECISION,
    "by" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "site_price_pkey" PRIMARY KEY ("site_id"),
    CONSTRAINT "lost_share_from_0_to_1" CHECK ("lost_share" BETWEEN 0 AND 1)
);

ALTER TABLE "site_price" ADD CONSTRAINT "site_price_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- Prices are ours: no client reads them.
GRANT SELECT, INSERT, UPDATE, DELETE ON "site_price" TO skidkeep_app;

-- What the value was when the part was new or clean, as the forecast saw it.
ALTER TABLE "outlook" ADD COLUMN "first_value" DOUBLE PRECISION;

-- By how much the record of earlier forecasts had the range widened.
ALTER TABLE "outlook" ADD COLUMN "stretch" DOUBLE PRECISION NOT NULL DEFAULT 1;

CREATE TABLE "part_life" (
    "fitting_id" UUID NOT NULL,
    "clock" TEXT NOT NULL,
    "skid_no" INTEGER NOT NULL,
    "position_id" UUID NOT NULL,
    "part_id" UUID NOT NULL,
    "position_kind" TEXT NOT NULL,
    "life" DOUBLE PRECISION NOT NULL,
    "ended" TEXT NOT NULL,
    "ended_on" DATE,

    CONSTRAINT "part_life_pkey" PRIMARY KEY ("fitting_id", "clock")
);

CREATE INDEX "part_life_skid_no_idx" ON "part_life"("skid_no");

GRANT SELECT, INSERT, UPDATE, DELETE ON "part_life" TO skidkeep_app;

CREATE TABLE "clogging_life" (
    "position_id" UUID NOT NULL,
    "part_id" UUID NOT NULL,
    "skid_no" INTEGER NOT NULL,
    "item_id" UUID NOT NULL,
    "place" INTEGER NOT NULL,
    "life" DOUBLE PRECISION NOT NULL,
    "ended" TEXT NOT NULL,
    "ended_on" DATE NOT NULL,
    "clock" DOUBLE PRECISION[],
    "level" DOUBLE PRECISION[],

    CONSTRAINT "clogging_life_pkey" PRIMARY KEY ("position_id", "part_id")
);

CREATE INDEX "clogging_life_item_id_ended_on_idx" ON "clogging_life"("item_id", "ended_on");

CREATE INDEX "clogging_life_skid_no_idx" ON "clogging_life"("skid_no");

GRANT SELECT, INSERT, UPDATE, DELETE ON "clogging_life" TO skidkeep_app;
