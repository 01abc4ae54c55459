CREATE TABLE "daily_condition" (
    "skid_no" INTEGER NOT NULL,
    "day" DATE NOT NULL,
    "client_id" UUID NOT NULL,
    "cycles" INTEGER NOT NULL,
    "filtration_hours" DOUBLE PRECISION NOT NULL,
    "filtrate_m3" DOUBLE PRECISION,
    "filtrate_estimated" BOOLEAN NOT NULL,
    "permeability" DOUBLE PRECISION,
    "permeability_low" DOUBLE PRECISION,
    "permeability_high" DOUBLE PRECISION,
    "permeability_count" INTEGER NOT NULL,
    "permeability_start" DOUBLE PRECISION,
    "flux_lmh" DOUBLE PRECISION,
    "tmp_kpa" DOUBLE PRECISION,
    "temperature_c" DOUBLE PRECISION,
    "cartridge_dp_kpa" DOUBLE PRECISION,
    "feed_turbidity_ntu" DOUBLE PRECISION,
    "left_out" JSONB NOT NULL,
    "cartridge_left_out" JSONB NOT NULL,
    "by_hand" BOOLEAN NOT NULL,

    CONSTRAINT "daily_condition_pkey" PRIMARY KEY ("skid_no","day")
);

CREATE TABLE "skid_condition" (
    "skid_no" INTEGER NOT NULL,
    "client_id" UUID NOT NULL,
    "computed_at" TIMESTAMPTZ(3) NOT NULL,
    "last_reading_at" TIMESTAMPTZ(3),
    "by_hand" BOOLEAN NOT NULL DEFAULT false,
    "baselines" JSONB NOT NULL,
    "daily_load_m3" DOUBLE PRECISION,
    "daily_load_sd" DOUBLE PRECISION,

    CONSTRAINT "skid_condition_pkey" PRIMARY KEY ("skid_no")
);

CREATE TABLE "machine_condition" (
    "position_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "client_id" UUID NOT NULL,
    "skid_no" INTEGER NOT NULL,
    "life" DOUBLE PRECISION NOT NULL,
    "as_of" TIMESTAMPTZ(3) NOT NULL,
    "daily_use" DOUBLE PRECISION,
    "source" TEXT NOT NULL,
    "rejected" JSONB NOT NULL,

    CONSTRAINT "machine_condition_pkey" PRIMARY KEY ("position_id","kind")
);

CREATE TABLE "outlook" (
    "id" BIGSERIAL NOT NULL,
    "skid_no" INTEGER NOT NULL,
    "client_id" UUID NOT NULL,
    "subject" TEXT NOT NULL,
    "part_id" UUID,
    "limit_kind" TEXT NOT NULL,
    "limit_value" DOUBLE PRECISION NOT NULL,
    "clock" TEXT NOT NULL,
    "origin_at" TIMESTAMPTZ(3) NOT NULL,
    "origin_day" DATE NOT NULL,
    "computed_at" TIMESTAMPTZ(3) NOT NULL,
    "model" TEXT NOT NULL,
    "model_version" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "met_by_day" DOUBLE PRECISION[],
    "share_beyond" DOUBLE PRECISION,
    "p10_days" DOUBLE PRECISION,
    "p50_days" DOUBLE PRECISION,
    "p90_days" DOUBLE PRECISION,
    "path" JSONB NOT NULL,
    "reason" TEXT NOT NULL,
    "data_used" JSONB NOT NULL,

    CONSTRAINT "outlook_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "upkeep_rule" (
    "id" UUID NOT NULL,
    "task" TEXT NOT NULL,
    "position_kind" TEXT NOT NULL,
    "skid_id" UUID,
    "run_hours" DOUBLE PRECISION,
    "starts" DOUBLE PRECISION,
    "cycles" DOUBLE PRECISION,
    "days" INTEGER,
    "base" TEXT NOT NULL DEFAULT 'floating',
    "grace_days" INTEGER,
    "contains" TEXT[] DEFAULT ARRAY[]::TEXT[],
    "expected_minutes" INTEGER NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "upkeep_rule_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "upkeep_rule_part" (
    "rule_id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "quantity" DECIMAL(18,6) NOT NULL,

    CONSTRAINT "upkeep_rule_part_pkey" PRIMARY KEY ("rule_id","item_id")
);

CREATE TABLE "due" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "skid_no" INTEGER NOT NULL,
    "position_id" UUID,
    "rule_id" UUID,
    "outlook_id" BIGINT,
    "task" TEXT NOT NULL,
    "limit" TEXT NOT NULL,
    "earliest_on" DATE,
    "best_on" DATE,
    "latest_on" DATE,
    "reason" TEXT NOT NULL,
    "computed_from" JSONB NOT NULL,
    "expected_minutes" INTEGER,
    "computed_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "due_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "tank_cover" (
    "tank_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "computed_at" TIMESTAMPTZ(3) NOT NULL,
    "kind" TEXT NOT NULL,
    "last_dip_at" TIMESTAMPTZ(3),
    "volume_l" DOUBLE PRECISION,
    "strength_g_l" DOUBLE PRECISION,
    "daily_use_l" DOUBLE PRECISION,
    "early_days" DOUBLE PRECISION,
    "likely_days" DOUBLE PRECISION,
    "late_days" DOUBLE PRECISION,
    "run_out_on" DATE,
    "expected_use_l" DOUBLE PRECISION,
    "observed_use_l" DOUBLE PRECISION,
    "reason" TEXT NOT NULL,
    "data_used" JSONB NOT NULL,

    CONSTRAINT "tank_cover_pkey" PRIMARY KEY ("tank_id")
);

CREATE TABLE "signal" (
    "id" SERIAL NOT NULL,
    "skid_id" UUID NOT NULL,
    "position_id" UUID,
    "code" TEXT NOT NULL,

    CONSTRAINT "signal_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "log_profile" (
    "id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "definition" JSONB NOT NULL,
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "log_profile_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "load" (
    "id" UUID NOT NULL,
    "no" SERIAL NOT NULL,
    "client_id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "sha256" TEXT NOT NULL,
    "by" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "kept" INTEGER NOT NULL DEFAULT 0,
    "known" INTEGER NOT NULL DEFAULT 0,
    "differing" INTEGER NOT NULL DEFAULT 0,
    "replaced" INTEGER NOT NULL DEFAULT 0,
    "doubtful" INTEGER NOT NULL DEFAULT 0,
    "refused" INTEGER NOT NULL DEFAULT 0,
    "problems" JSONB NOT NULL DEFAULT '[]',

    CONSTRAINT "load_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "sample" (
    "signal_id" INTEGER NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "value" DOUBLE PRECISION NOT NULL,
    "quality" SMALLINT NOT NULL,
    "load_no" INTEGER NOT NULL,

    CONSTRAINT "sample_pkey" PRIMARY KEY ("signal_id","at")
) PARTITION BY RANGE ("at");

CREATE TABLE "cycle" (
    "skid_no" INTEGER NOT NULL,
    "started_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3) NOT NULL,
    "filtration_minutes" DOUBLE PRECISION NOT NULL,
    "filtrate_m3" DOUBLE PRECISION,
    "flow_m3h" DOUBLE PRECISION,
    "feed_kpa" DOUBLE PRECISION,
    "filtrate_kpa" DOUBLE PRECISION,
    "concentrate_kpa" DOUBLE PRECISION,
    "tmp_kpa" DOUBLE PRECISION,
    "tmp_start_kpa" DOUBLE PRECISION,
    "tmp_end_kpa" DOUBLE PRECISION,
    "temperature_c" DOUBLE PRECISION,
    "cartridge_dp_kpa" DOUBLE PRECISION,
    "feed_turbidity_ntu" DOUBLE PRECISION,
    "quality" SMALLINT NOT NULL,
    "derived" BOOLEAN NOT NULL DEFAULT false,
    "load_no" INTEGER NOT NULL,

    CONSTRAINT "cycle_pkey" PRIMARY KEY ("skid_no","started_at")
);

CREATE TABLE "replaced_record" (
    "id" BIGSERIAL NOT NULL,
    "skid_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "record" JSONB NOT NULL,
    "load_no" INTEGER NOT NULL,
    "replaced_by_load" INTEGER NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "replaced_record_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "clean" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "chemical" TEXT NOT NULL,
    "strength_mg_l" DOUBLE PRECISION,
    "contact_minutes" DOUBLE PRECISION,
    "note" TEXT NOT NULL DEFAULT '',
    "load_no" INTEGER NOT NULL,

    CONSTRAINT "clean_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "meter_reading" (
    "meter_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "kind" TEXT NOT NULL DEFAULT 'reading',
    "value" DOUBLE PRECISION NOT NULL,
    "old_final" DOUBLE PRECISION,
    "reading_error" DOUBLE PRECISION,
    "load_no" INTEGER NOT NULL,

    CONSTRAINT "meter_reading_pkey" PRIMARY KEY ("meter_id","at")
);

CREATE TABLE "hand_reading" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "read_by" TEXT NOT NULL,
    "minutes_since_backwash" DOUBLE PRECISION,
    "note" TEXT NOT NULL DEFAULT '',
    "load_no" INTEGER NOT NULL,

    CONSTRAINT "hand_reading_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "hand_value" (
    "hand_reading_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "signal" TEXT NOT NULL,
    "value" DOUBLE PRECISION NOT NULL,
    "entered" DOUBLE PRECISION NOT NULL,
    "entered_unit" TEXT NOT NULL,
    "reading_error" DOUBLE PRECISION,

    CONSTRAINT "hand_value_pkey" PRIMARY KEY ("hand_reading_id","signal")
);

CREATE TABLE "service_entry" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "position_id" UUID,
    "task" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "minutes" DOUBLE PRECISION,
    "done_by" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "load_no" INTEGER NOT NULL,

    CONSTRAINT "service_entry_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "tank_dip" (
    "tank_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "level_m" DOUBLE PRECISION NOT NULL,
    "strength_g_l" DOUBLE PRECISION,
    "read_by" TEXT NOT NULL,
    "reading_error" DOUBLE PRECISION,
    "load_no" INTEGER NOT NULL,

    CONSTRAINT "tank_dip_pkey" PRIMARY KEY ("tank_id","at")
);

CREATE TABLE "tank_delivery" (
    "tank_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "volume_l" DOUBLE PRECISION NOT NULL,
    "strength_g_l" DOUBLE PRECISION,
    "lot" TEXT,
    "by" TEXT NOT NULL,
    "load_no" INTEGER NOT NULL,

    CONSTRAINT "tank_delivery_pkey" PRIMARY KEY ("tank_id","at")
);

CREATE TABLE "person" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "password_hash" TEXT,
    "role" TEXT NOT NULL,
    "client_id" UUID,
    "site_id" UUID,
    "may_enter_readings" BOOLEAN NOT NULL DEFAULT false,
    "demo" BOOLEAN NOT NULL DEFAULT false,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "ended_at" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "person_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "session" (
    "token_hash" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "session_pkey" PRIMARY KEY ("token_hash")
);

CREATE TABLE "gateway_key" (
    "id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "key_hash" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "created_by" TEXT NOT NULL,
    "ended_at" TIMESTAMPTZ(3),

    CONSTRAINT "gateway_key_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "invitation" (
    "token_hash" TEXT NOT NULL,
    "person_id" UUID,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "used_at" TIMESTAMPTZ(3),

    CONSTRAINT "invitation_pkey" PRIMARY KEY ("token_hash")
);

CREATE TABLE "idempotent_request" (
    "caller" TEXT NOT NULL,
    "key" UUID NOT NULL,
    "request_hash" TEXT NOT NULL,
    "status" INTEGER,
    "response" JSONB,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "idempotent_request_pkey" PRIMARY KEY ("caller","key")
);

CREATE TABLE "client" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "client_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "site" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "latitude" DOUBLE PRECISION,
    "longitude" DOUBLE PRECISION,
    "time_zone" TEXT NOT NULL,
    "access_hours" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "site_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "skid" (
    "id" UUID NOT NULL,
    "no" SERIAL NOT NULL,
    "client_id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "kind" TEXT NOT NULL DEFAULT 'skid',
    "name" TEXT NOT NULL,
    "serial_number" TEXT,
    "water" TEXT NOT NULL DEFAULT '',
    "rated_flow_m3h" DOUBLE PRECISION,
    "flow_scheme" TEXT,
    "tmp_from" TEXT,
    "feed_height_m" DOUBLE PRECISION NOT NULL DEFAULT 0,
    "filtrate_height_m" DOUBLE PRECISION NOT NULL DEFAULT 0,
    "concentrate_height_m" DOUBLE PRECISION NOT NULL DEFAULT 0,
    "commissioned_on" DATE,
    "baseline_lmh_bar" DOUBLE PRECISION,
    "reference_c" DOUBLE PRECISION NOT NULL DEFAULT 20,
    "permeability_limit_fraction" DOUBLE PRECISION NOT NULL DEFAULT 0.7,
    "cartridge_limit_kpa" DOUBLE PRECISION,
    "cartridge_reference_flow_m3h" DOUBLE PRECISION,
    "service_state" TEXT NOT NULL DEFAULT 'in service',
    "note" TEXT NOT NULL DEFAULT '',
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "skid_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "skid_area" (
    "skid_id" UUID NOT NULL,
    "from_day" DATE NOT NULL,
    "area_m2" DOUBLE PRECISION NOT NULL,

    CONSTRAINT "skid_area_pkey" PRIMARY KEY ("skid_id","from_day")
);

CREATE TABLE "service_state_change" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "state" TEXT NOT NULL,
    "by" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "service_state_change_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "shared_service" (
    "shared_id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,

    CONSTRAINT "shared_service_pkey" PRIMARY KEY ("shared_id","skid_id")
);

CREATE TABLE "position" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "parent_id" UUID,
    "kind" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "strokes_per_cycle" DOUBLE PRECISION,
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "position_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "item" (
    "id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "unit" TEXT NOT NULL DEFAULT 'C62',
    "note" TEXT NOT NULL DEFAULT '',
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "item_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "part" (
    "id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "serial_number" TEXT,
    "set_count" INTEGER NOT NULL DEFAULT 1,
    "lot" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "part_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "fitting" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "position_id" UUID NOT NULL,
    "part_id" UUID NOT NULL,
    "fitted_at" TIMESTAMPTZ(3) NOT NULL,
    "fitted_by" TEXT NOT NULL,
    "removed_at" TIMESTAMPTZ(3),
    "removed_by" TEXT,
    "removal_reason" TEXT,

    CONSTRAINT "fitting_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "meter" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "position_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "modulus" DOUBLE PRECISION,
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "meter_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "tank" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "chemical" TEXT NOT NULL,
    "shape" TEXT NOT NULL,
    "diameter_m" DOUBLE PRECISION,
    "length_m" DOUBLE PRECISION,
    "width_m" DOUBLE PRECISION,
    "height_m" DOUBLE PRECISION NOT NULL,
    "capacity_l" DOUBLE PRECISION NOT NULL,
    "heel_l" DOUBLE PRECISION NOT NULL DEFAULT 0,
    "strength_g_l" DOUBLE PRECISION,
    "storage_c" DOUBLE PRECISION,
    "dose_mg_l" DOUBLE PRECISION,
    "litres_per_ceb" DOUBLE PRECISION,
    "litres_per_cip" DOUBLE PRECISION,
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "tank_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "machine_condition_skid_no_idx" ON "machine_condition"("skid_no");
CREATE UNIQUE INDEX "outlook_skid_no_subject_limit_kind_origin_day_key" ON "outlook"("skid_no", "subject", "limit_kind", "origin_day");
CREATE INDEX "due_skid_no_idx" ON "due"("skid_no");
CREATE INDEX "due_best_on_idx" ON "due"("best_on");
CREATE INDEX "signal_skid_id_idx" ON "signal"("skid_id");
CREATE UNIQUE INDEX "log_profile_skid_id_name_key" ON "log_profile"("skid_id", "name");
CREATE UNIQUE INDEX "load_no_key" ON "load"("no");
CREATE INDEX "load_skid_id_at_idx" ON "load"("skid_id", "at");
CREATE INDEX "replaced_record_skid_id_idx" ON "replaced_record"("skid_id");
CREATE UNIQUE INDEX "clean_skid_id_kind_at_chemical_key" ON "clean"("skid_id", "kind", "at", "chemical");
CREATE UNIQUE INDEX "hand_reading_skid_id_at_key" ON "hand_reading"("skid_id", "at");
CREATE INDEX "service_entry_skid_id_at_idx" ON "service_entry"("skid_id", "at");
CREATE UNIQUE INDEX "person_email_key" ON "person"("email");
CREATE INDEX "session_person_id_idx" ON "session"("person_id");
CREATE INDEX "invitation_person_id_idx" ON "invitation"("person_id");
CREATE UNIQUE INDEX "gateway_key_key_hash_key" ON "gateway_key"("key_hash");
CREATE UNIQUE INDEX "client_name_key" ON "client"("name");
CREATE UNIQUE INDEX "site_client_id_name_key" ON "site"("client_id", "name");
CREATE UNIQUE INDEX "skid_no_key" ON "skid"("no");
CREATE INDEX "skid_client_id_idx" ON "skid"("client_id");
CREATE UNIQUE INDEX "skid_site_id_name_key" ON "skid"("site_id", "name");
CREATE INDEX "service_state_change_skid_id_at_idx" ON "service_state_change"("skid_id", "at");
CREATE UNIQUE INDEX "position_skid_id_name_key" ON "position"("skid_id", "name");
CREATE UNIQUE INDEX "item_code_key" ON "item"("code");
CREATE UNIQUE INDEX "part_item_id_serial_number_key" ON "part"("item_id", "serial_number");
CREATE INDEX "fitting_position_id_fitted_at_idx" ON "fitting"("position_id", "fitted_at");
CREATE INDEX "fitting_part_id_idx" ON "fitting"("part_id");
CREATE UNIQUE INDEX "meter_position_id_kind_key" ON "meter"("position_id", "kind");
CREATE UNIQUE INDEX "tank_skid_id_name_key" ON "tank"("skid_id", "name");
ALTER TABLE "upkeep_rule_part" ADD CONSTRAINT "upkeep_rule_part_rule_id_fkey" FOREIGN KEY ("rule_id") REFERENCES "upkeep_rule"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "upkeep_rule_part" ADD CONSTRAINT "upkeep_rule_part_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "due" ADD CONSTRAINT "due_rule_id_fkey" FOREIGN KEY ("rule_id") REFERENCES "upkeep_rule"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "tank_cover" ADD CONSTRAINT "tank_cover_tank_id_fkey" FOREIGN KEY ("tank_id") REFERENCES "tank"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "signal" ADD CONSTRAINT "signal_skid_id_fkey" FOREIGN KEY ("skid_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "log_profile" ADD CONSTRAINT "log_profile_skid_id_fkey" FOREIGN KEY ("skid_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "load" ADD CONSTRAINT "load_skid_id_fkey" FOREIGN KEY ("skid_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "meter_reading" ADD CONSTRAINT "meter_reading_meter_id_fkey" FOREIGN KEY ("meter_id") REFERENCES "meter"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "hand_value" ADD CONSTRAINT "hand_value_hand_reading_id_fkey" FOREIGN KEY ("hand_reading_id") REFERENCES "hand_reading"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "tank_dip" ADD CONSTRAINT "tank_dip_tank_id_fkey" FOREIGN KEY ("tank_id") REFERENCES "tank"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "tank_delivery" ADD CONSTRAINT "tank_delivery_tank_id_fkey" FOREIGN KEY ("tank_id") REFERENCES "tank"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "person" ADD CONSTRAINT "person_client_id_fkey" FOREIGN KEY ("client_id") REFERENCES "client"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "person" ADD CONSTRAINT "person_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "session" ADD CONSTRAINT "session_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "invitation" ADD CONSTRAINT "invitation_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "gateway_key" ADD CONSTRAINT "gateway_key_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "site" ADD CONSTRAINT "site_client_id_fkey" FOREIGN KEY ("client_id") REFERENCES "client"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "skid" ADD CONSTRAINT "skid_client_id_fkey" FOREIGN KEY ("client_id") REFERENCES "client"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "skid" ADD CONSTRAINT "skid_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "skid_area" ADD CONSTRAINT "skid_area_skid_id_fkey" FOREIGN KEY ("skid_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "service_state_change" ADD CONSTRAINT "service_state_change_skid_id_fkey" FOREIGN KEY ("skid_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "shared_service" ADD CONSTRAINT "shared_service_shared_id_fkey" FOREIGN KEY ("shared_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "shared_service" ADD CONSTRAINT "shared_service_skid_id_fkey" FOREIGN KEY ("skid_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "position" ADD CONSTRAINT "position_skid_id_fkey" FOREIGN KEY ("skid_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "position" ADD CONSTRAINT "position_parent_id_fkey" FOREIGN KEY ("parent_id") REFERENCES "position"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "part" ADD CONSTRAINT "part_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "fitting" ADD CONSTRAINT "fitting_position_id_fkey" FOREIGN KEY ("position_id") REFERENCES "position"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "fitting" ADD CONSTRAINT "fitting_part_id_fkey" FOREIGN KEY ("part_id") REFERENCES "part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "meter" ADD CONSTRAINT "meter_position_id_fkey" FOREIGN KEY ("position_id") REFERENCES "position"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "tank" ADD CONSTRAINT "tank_skid_id_fkey" FOREIGN KEY ("skid_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Below: what the schema language cannot say.

-- One part at a time in a position, and one position at a time for a part; one signal of a kind on a skid.
CREATE UNIQUE INDEX "fitting_one_part_in_position" ON "fitting"("position_id") WHERE "removed_at" IS NULL;
CREATE UNIQUE INDEX "fitting_one_position_of_part" ON "fitting"("part_id") WHERE "removed_at" IS NULL;
CREATE UNIQUE INDEX "signal_of_skid" ON "signal"("skid_id", "code") WHERE "position_id" IS NULL;
CREATE UNIQUE INDEX "signal_of_position" ON "signal"("position_id", "code") WHERE "position_id" IS NOT NULL;
CREATE UNIQUE INDEX "service_entry_once" ON "service_entry"("skid_id", "task", "at", (coalesce("position_id", '00000000-0000-0000-0000-000000000000'::uuid)));

ALTER TABLE "person" ADD CONSTRAINT "person_role" CHECK ("role" IN ('manager', 'storekeeper', 'technician', 'client') AND ("role" = 'client') = ("client_id" IS NOT NULL));
ALTER TABLE "skid" ADD CONSTRAINT "skid_kind" CHECK ("kind" IN ('skid', 'shared'));
ALTER TABLE "skid" ADD CONSTRAINT "skid_flow_scheme" CHECK ("flow_scheme" IN ('dead-end', 'cross-flow', 'submerged'));
ALTER TABLE "skid" ADD CONSTRAINT "skid_tmp_from" CHECK ("tmp_from" IN ('pressures', 'measured'));
ALTER TABLE "skid" ADD CONSTRAINT "skid_service_state" CHECK ("service_state" IN ('being commissioned', 'in service', 'laid up', 'out of service', 'retired'));
ALTER TABLE "fitting" ADD CONSTRAINT "fitting_span" CHECK ("removed_at" > "fitted_at");
ALTER TABLE "clean" ADD CONSTRAINT "clean_kind" CHECK ("kind" IN ('CEB', 'CIP'));
ALTER TABLE "cycle" ADD CONSTRAINT "cycle_span" CHECK ("ended_at" > "started_at");

-- Roles belong to the whole server, not to one database: another database may have made them a moment ago, or an administrator has,
-- because this user may not. So each is made and granted only where it is missing.
DO $$ BEGIN
  IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = 'skidkeep_app') THEN CREATE ROLE skidkeep_app NOLOGIN; END IF;
EXCEPTION WHEN duplicate_object OR unique_violation THEN NULL;
END $$;
DO $$ BEGIN
  IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = 'skidkeep_client') THEN CREATE ROLE skidkeep_client NOLOGIN; END IF;
EXCEPTION WHEN duplicate_object OR unique_violation THEN NULL;
END $$;
DO $$ BEGIN
  IF NOT pg_has_role('skidkeep_app', 'skidkeep_client', 'MEMBER') THEN GRANT skidkeep_client TO skidkeep_app; END IF;
END $$;
-- Whether this user may work as skidkeep_app: since PostgreSQL 16, who made a role is a member of it, and still may not.
DO $$ BEGIN
  SET LOCAL ROLE skidkeep_app;
  RESET ROLE;
EXCEPTION WHEN insufficient_privilege THEN GRANT skidkeep_app TO CURRENT_USER;
END $$;
GRANT USAGE ON SCHEMA public TO skidkeep_app, skidkeep_client;
-- The work queue keeps its tables in a schema of its own, which its library makes and changes.
CREATE SCHEMA IF NOT EXISTS pgboss AUTHORIZATION skidkeep_app;

-- Makes the partition of the month (UTC) that holds the moment; does nothing when it is there.
-- It runs as the owner, since only the owner of a table may add a partition to it.
CREATE FUNCTION ensure_sample_month(moment timestamptz) RETURNS void LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  month_start timestamptz := date_trunc('month', moment, 'UTC');
  month_end timestamptz := date_trunc('month', month_start + interval '32 days', 'UTC');
  partition_name text := 'sample_' || to_char(month_start AT TIME ZONE 'UTC', 'YYYY_MM');
BEGIN
  IF to_regclass(quote_ident(partition_name)) IS NOT NULL THEN RETURN; END IF;
  PERFORM pg_advisory_xact_lock(hashtext('ensure_sample_month'));
  EXECUTE format('CREATE TABLE IF NOT EXISTS %I PARTITION OF sample FOR VALUES FROM (%L) TO (%L)', partition_name, month_start, month_end);
END $$;
REVOKE ALL ON FUNCTION ensure_sample_month(timestamptz) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION ensure_sample_month(timestamptz) TO skidkeep_app;

-- The client of the present transaction; nothing when there is none, so that nothing is seen.
CREATE FUNCTION current_client() RETURNS uuid LANGUAGE sql STABLE AS $$ SELECT nullif(current_setting('skidkeep.client', true), '')::uuid $$;

-- Staff and workers.
GRANT SELECT, INSERT, UPDATE, DELETE ON "daily_condition", "skid_condition", "machine_condition", "outlook", "upkeep_rule", "upkeep_rule_part", "due", "tank_cover", "signal", "log_profile", "load", "sample", "cycle", "replaced_record", "clean", "meter_reading", "hand_reading", "hand_value", "service_entry", "tank_dip", "tank_delivery", "person", "session", "gateway_key", "invitation", "idempotent_request", "client", "site", "skid", "skid_area", "service_state_change", "shared_service", "position", "item", "part", "fitting", "meter", "tank" TO skidkeep_app;
GRANT USAGE ON ALL SEQUENCES IN SCHEMA public TO skidkeep_app;
GRANT SELECT ON "_prisma_migrations" TO skidkeep_app;

-- A client reads its own rows and writes nothing. A table that a client may read has a policy; every other table has no grant.
GRANT SELECT ON "client", "site", "skid", "service_state_change", "shared_service", "position", "fitting", "meter", "tank", "load", "clean", "meter_reading", "hand_reading", "hand_value", "service_entry", "tank_dip", "tank_delivery", "daily_condition", "skid_condition", "machine_condition", "outlook", "due", "tank_cover", "skid_area", "item", "part" TO skidkeep_client;
ALTER TABLE "client" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "client" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "client" FOR SELECT TO skidkeep_client USING ("id" = current_client());
ALTER TABLE "site" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "site" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "site" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "skid" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "skid" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "skid" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "service_state_change" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "service_state_change" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "service_state_change" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "shared_service" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "shared_service" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "shared_service" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "position" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "position" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "position" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "fitting" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "fitting" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "fitting" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "meter" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "meter" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "meter" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "tank" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "tank" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "tank" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "load" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "load" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "load" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "clean" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "clean" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "clean" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "meter_reading" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "meter_reading" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "meter_reading" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "hand_reading" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "hand_reading" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "hand_reading" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "hand_value" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "hand_value" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "hand_value" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "service_entry" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "service_entry" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "service_entry" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "tank_dip" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "tank_dip" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "tank_dip" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "tank_delivery" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "tank_delivery" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "tank_delivery" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "daily_condition" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "daily_condition" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "daily_condition" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "skid_condition" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "skid_condition" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "skid_condition" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "machine_condition" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "machine_condition" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "machine_condition" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "outlook" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "outlook" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "outlook" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "due" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "due" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "due" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "tank_cover" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "tank_cover" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "tank_cover" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
ALTER TABLE "skid_area" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "skid_area" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "skid_area" FOR SELECT TO skidkeep_client USING (EXISTS (SELECT 1 FROM "skid" s WHERE s."id" = "skid_id"));
ALTER TABLE "item" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "item" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "item" FOR SELECT TO skidkeep_client USING (true);
ALTER TABLE "part" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "part" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "part" FOR SELECT TO skidkeep_client USING (EXISTS (SELECT 1 FROM "fitting" f WHERE f."part_id" = "part"."id"));
