CREATE TABLE "integrity_setup" (
    "skid_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "design_flow_m3h" DOUBLE PRECISION NOT NULL,
    "air_volume_l" DOUBLE PRECISION NOT NULL,
    "highest_tmp_kpa" DOUBLE PRECISION NOT NULL,
    "back_pressure_kpa" DOUBLE PRECISION NOT NULL DEFAULT 0,
    "atmospheric_kpa" DOUBLE PRECISION NOT NULL DEFAULT 101.325,
    "air_liquid_ratio" DOUBLE PRECISION,
    "net_expansion" DOUBLE PRECISION NOT NULL DEFAULT 0.7,
    "concentration" DOUBLE PRECISION NOT NULL DEFAULT 1,
    "pore_shape" DOUBLE PRECISION NOT NULL DEFAULT 1,
    "contact_angle_deg" DOUBLE PRECISION NOT NULL DEFAULT 0,
    "credit_lrv" DOUBLE PRECISION NOT NULL,
    "baseline_kpa_min" DOUBLE PRECISION,
    "highest_test_kpa" DOUBLE PRECISION,
    "least_settled_min" DOUBLE PRECISION NOT NULL DEFAULT 5,
    "gauge_step_kpa" DOUBLE PRECISION NOT NULL DEFAULT 0.1,
    "fibres_per_module" INTEGER,
    "module_area_m2" DOUBLE PRECISION,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "integrity_setup_pkey" PRIMARY KEY ("skid_id")
);

CREATE TABLE "integrity_test" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "by" TEXT NOT NULL,
    "start_kpa" DOUBLE PRECISION NOT NULL,
    "end_kpa" DOUBLE PRECISION NOT NULL,
    "minutes" DOUBLE PRECISION NOT NULL,
    "settled_minutes" DOUBLE PRECISION NOT NULL,
    "temperature_c" DOUBLE PRECISION NOT NULL,
    "decay_kpa_min" DOUBLE PRECISION NOT NULL,
    "least_test_kpa" DOUBLE PRECISION,
    "sensitivity_lrv" DOUBLE PRECISION,
    "lrv" DOUBLE PRECISION,
    "control_limit_kpa_min" DOUBLE PRECISION,
    "outcome" TEXT NOT NULL,
    "reasons" TEXT[],
    "setup" JSONB NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "report_id" UUID,

    CONSTRAINT "integrity_test_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "fibre_repair" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "position_id" UUID NOT NULL,
    "part_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "by" TEXT NOT NULL,
    "fibres" INTEGER NOT NULL,
    "area_lost_m2" DOUBLE PRECISION,
    "note" TEXT NOT NULL DEFAULT '',
    "report_id" UUID,

    CONSTRAINT "fibre_repair_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "calibration" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "position_id" UUID NOT NULL,
    "signal" TEXT NOT NULL,
    "unit" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "by" TEXT NOT NULL,
    "reference_instrument" TEXT NOT NULL,
    "certificate_no" TEXT NOT NULL DEFAULT '',
    "tolerance" DOUBLE PRECISION NOT NULL,
    "points" JSONB NOT NULL,
    "worst_as_found" DOUBLE PRECISION NOT NULL,
    "worst_as_left" DOUBLE PRECISION,
    "as_found" TEXT NOT NULL,
    "as_left" TEXT NOT NULL,
    "next_on" DATE,
    "note" TEXT NOT NULL DEFAULT '',
    "report_id" UUID,

    CONSTRAINT "calibration_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "doubtful_span" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "signal" TEXT NOT NULL,
    "from_at" TIMESTAMPTZ(3),
    "to_at" TIMESTAMPTZ(3),
    "error" DOUBLE PRECISION NOT NULL,
    "reason" TEXT NOT NULL,
    "calibration_id" UUID NOT NULL,

    CONSTRAINT "doubtful_span_pkey" PRIMARY KEY ("id")
);

ALTER TABLE "position" ADD COLUMN "signal" TEXT;
ALTER TABLE "daily_condition" ADD COLUMN "doubtful" TEXT[] DEFAULT ARRAY[]::TEXT[];

CREATE UNIQUE INDEX "integrity_test_skid_id_at_key" ON "integrity_test"("skid_id", "at");

CREATE INDEX "fibre_repair_skid_id_at_idx" ON "fibre_repair"("skid_id", "at");

CREATE INDEX "calibration_skid_id_signal_at_idx" ON "calibration"("skid_id", "signal", "at");

CREATE UNIQUE INDEX "calibration_position_id_at_key" ON "calibration"("position_id", "at");

CREATE INDEX "doubtful_span_skid_id_idx" ON "doubtful_span"("skid_id");

ALTER TABLE "integrity_setup" ADD CONSTRAINT "integrity_setup_skid_id_fkey" FOREIGN KEY ("skid_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "integrity_test" ADD CONSTRAINT "integrity_test_skid_id_fkey" FOREIGN KEY ("skid_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "fibre_repair" ADD CONSTRAINT "fibre_repair_skid_id_fkey" FOREIGN KEY ("skid_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "calibration" ADD CONSTRAINT "calibration_position_id_fkey" FOREIGN KEY ("position_id") REFERENCES "position"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

GRANT SELECT, INSERT, UPDATE, DELETE ON "integrity_setup", "integrity_test", "fibre_repair", "calibration", "doubtful_span" TO skidkeep_app;

GRANT SELECT ON "integrity_test", "fibre_repair", "calibration", "doubtful_span" TO skidkeep_client;

ALTER TABLE "integrity_test" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "integrity_test" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "integrity_test" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());

ALTER TABLE "fibre_repair" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "fibre_repair" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "fibre_repair" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());

ALTER TABLE "calibration" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "calibration" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "calibration" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());

ALTER TABLE "doubtful_span" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "doubtful_span" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "doubtful_span" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
