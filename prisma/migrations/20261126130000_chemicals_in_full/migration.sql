ALTER TABLE "tank" ADD COLUMN "item_id" UUID,
ADD COLUMN "fed_from_id" UUID,
ADD COLUMN "level_table" JSONB,
ADD COLUMN "supplied_by" TEXT NOT NULL DEFAULT 'us';

ALTER TABLE "tank_delivery" ADD COLUMN "density_kg_l" DOUBLE PRECISION,
ADD COLUMN "expires_on" DATE,
ADD COLUMN "from_tank_id" UUID,
ADD COLUMN "product" TEXT,
ADD COLUMN "strength_basis" TEXT,
ADD COLUMN "strength_value" DOUBLE PRECISION;

ALTER TABLE "tank_cover" ADD COLUMN "balance_state" TEXT,
ADD COLUMN "balance_words" TEXT,
ADD COLUMN "drift_l_day" DOUBLE PRECISION,
ADD COLUMN "expires_on" DATE,
ADD COLUMN "use_sd_l" DOUBLE PRECISION;

CREATE TABLE "tank_user" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "tank_id" UUID NOT NULL,
    "skid_id" UUID,
    "name" TEXT NOT NULL,
    "dose_mg_l" DOUBLE PRECISION,
    "litres_per_ceb" DOUBLE PRECISION,
    "litres_per_cip" DOUBLE PRECISION,
    "litres_per_day" DOUBLE PRECISION,
    "sd_per_day" DOUBLE PRECISION,
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "tank_user_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "tank_assay" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "tank_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "strength_g_l" DOUBLE PRECISION NOT NULL,
    "value" DOUBLE PRECISION NOT NULL,
    "basis" TEXT NOT NULL,
    "density_kg_l" DOUBLE PRECISION,
    "method" TEXT NOT NULL DEFAULT '',
    "by" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "entered_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "tank_assay_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "client_delivery" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "tank_id" UUID NOT NULL,
    "volume_l" DOUBLE PRECISION NOT NULL,
    "expected_on" DATE NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "announced_at" TIMESTAMPTZ(3) NOT NULL,
    "announced_by" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'awaited',
    "settled_at" TIMESTAMPTZ(3),
    "settled_by" TEXT,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "client_delivery_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "tank_user_skid_id_idx" ON "tank_user"("skid_id");

CREATE UNIQUE INDEX "tank_user_tank_id_name_key" ON "tank_user"("tank_id", "name");

CREATE UNIQUE INDEX "tank_assay_tank_id_at_key" ON "tank_assay"("tank_id", "at");

CREATE INDEX "client_delivery_tank_id_state_idx" ON "client_delivery"("tank_id", "state");

ALTER TABLE "tank" ADD CONSTRAINT "tank_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "tank" ADD CONSTRAINT "tank_fed_from_id_fkey" FOREIGN KEY ("fed_from_id") REFERENCES "tank"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "tank_delivery" ADD CONSTRAINT "tank_delivery_from_tank_id_fkey" FOREIGN KEY ("from_tank_id") REFERENCES "tank"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "tank_user" ADD CONSTRAINT "tank_user_tank_id_fkey" FOREIGN KEY ("tank_id") REFERENCES "tank"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "tank_user" ADD CONSTRAINT "tank_user_skid_id_fkey" FOREIGN KEY ("skid_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "tank_assay" ADD CONSTRAINT "tank_assay_tank_id_fkey" FOREIGN KEY ("tank_id") REFERENCES "tank"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "client_delivery" ADD CONSTRAINT "client_delivery_tank_id_fkey" FOREIGN KEY ("tank_id") REFERENCES "tank"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

CREATE INDEX "tank_delivery_from_tank_id_idx" ON "tank_delivery"("from_tank_id");
CREATE INDEX "tank_fed_from_id_idx" ON "tank"("fed_from_id");

GRANT SELECT, INSERT, UPDATE, DELETE ON "tank_user", "tank_assay", "client_delivery" TO skidkeep_app;
GRANT SELECT ON "tank_user", "tank_assay", "client_delivery" TO skidkeep_client;

ALTER TABLE "tank_user" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "tank_user" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "tank_user" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());

ALTER TABLE "tank_assay" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "tank_assay" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "tank_assay" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());

ALTER TABLE "client_delivery" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "client_delivery" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "client_delivery" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
