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
