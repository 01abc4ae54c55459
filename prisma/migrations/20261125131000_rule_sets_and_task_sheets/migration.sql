CREATE TABLE "rule_set" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "rule_set_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "rule_set_version" (
    "id" UUID NOT NULL,
    "rule_set_id" UUID NOT NULL,
    "no" INTEGER NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "created_by" TEXT NOT NULL,
    "published_at" TIMESTAMPTZ(3),
    "published_by" TEXT,

    CONSTRAINT "rule_set_version_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "rule_override" (
    "id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "position_id" UUID,
    "position_kind" TEXT NOT NULL,
    "task" TEXT NOT NULL,
    "off" BOOLEAN NOT NULL DEFAULT false,
    "run_hours" DOUBLE PRECISION,
    "starts" DOUBLE PRECISION,
    "cycles" DOUBLE PRECISION,
    "days" INTEGER,
    "grace_days" INTEGER,
    "reason" TEXT NOT NULL,
    "by" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" TEXT,

    CONSTRAINT "rule_override_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "task_sheet" (
    "id" UUID NOT NULL,
    "task" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "task_sheet_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "task_sheet_version" (
    "id" UUID NOT NULL,
    "task_sheet_id" UUID NOT NULL,
    "no" INTEGER NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "created_by" TEXT NOT NULL,
    "usual_minutes" INTEGER NOT NULL,
    "crew" INTEGER NOT NULL DEFAULT 1,
    "water_off_minutes" INTEGER NOT NULL DEFAULT 0,
    "skills" TEXT[] DEFAULT ARRAY[]::TEXT[],
    "certificates" TEXT[] DEFAULT ARRAY[]::TEXT[],
    "tools" TEXT[] DEFAULT ARRAY[]::TEXT[],
    "instruments" TEXT[] DEFAULT ARRAY[]::TEXT[],
    "chemicals" JSONB NOT NULL DEFAULT '[]',
    "steps" JSONB NOT NULL DEFAULT '[]',
    "hazards" TEXT[] DEFAULT ARRAY[]::TEXT[],
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "task_sheet_version_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "task_sheet_part" (
    "version_id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "quantity" DECIMAL(18,6) NOT NULL,
    "every_visit" BOOLEAN NOT NULL DEFAULT false,

    CONSTRAINT "task_sheet_part_pkey" PRIMARY KEY ("version_id","item_id")
);

CREATE TABLE "work_ahead" (
    "skid_no" INTEGER NOT NULL,
    "week" DATE NOT NULL,
    "kind" TEXT NOT NULL,
    "client_id" UUID NOT NULL,
    "hours" DOUBLE PRECISION NOT NULL,
    "tasks" INTEGER NOT NULL,
    "detail" JSONB NOT NULL,

    CONSTRAINT "work_ahead_pkey" PRIMARY KEY ("skid_no","week","kind")
);

CREATE TABLE "rule_set_change" (
    "id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "from_version_id" UUID,
    "to_version_id" UUID,
    "by" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "rule_set_change_pkey" PRIMARY KEY ("id")
);

-- What a rule said of the work goes into a task sheet of the same name: its usual time and its parts.
INSERT INTO "task_sheet" ("id", "task", "kind") SELECT gen_random_uuid(), t."task", 'service' FROM (SELECT DISTINCT "task" FROM "upkeep_rule") t;
INSERT INTO "task_sheet_version" ("id", "task_sheet_id", "no", "created_by", "usual_minutes")
  SELECT gen_random_uuid(), s."id", 1, 'Skidkeep', max(r."expected_minutes") FROM "task_sheet" s JOIN "upkeep_rule" r ON r."task" = s."task" GROUP BY s."id";
INSERT INTO "task_sheet_part" ("version_id", "item_id", "quantity")
  SELECT v."id", p."item_id", max(p."quantity") FROM "upkeep_rule_part" p JOIN "upkeep_rule" r ON r."id" = p."rule_id" JOIN "task_sheet" s ON s."task" = r."task"
    JOIN "task_sheet_version" v ON v."task_sheet_id" = s."id" GROUP BY v."id", p."item_id";
DROP TABLE "upkeep_rule_part";
ALTER TABLE "upkeep_rule" ADD COLUMN "rule_set_version_id" UUID, ADD COLUMN "outlook_limit" TEXT, ADD COLUMN "condition_figure" TEXT, ADD COLUMN "condition_above" DOUBLE PRECISION,
  ADD COLUMN "condition_below" DOUBLE PRECISION, ADD COLUMN "while_laid_up" TEXT NOT NULL DEFAULT 'stands still', ADD COLUMN "task_sheet_id" UUID;
UPDATE "upkeep_rule" r SET "task_sheet_id" = s."id" FROM "task_sheet" s WHERE s."task" = r."task";
ALTER TABLE "upkeep_rule" ALTER COLUMN "task_sheet_id" SET NOT NULL, DROP COLUMN "expected_minutes";
ALTER TABLE "skid" ADD COLUMN "rule_set_version_id" UUID;
ALTER TABLE "due" ADD COLUMN "task_sheet_id" UUID;

-- The due list is read in the order of its days, and all that orders it lies in the index.
DROP INDEX "due_best_on_idx";
CREATE INDEX "due_best_on_latest_on_skid_no_task_id_idx" ON "due"("best_on", "latest_on", "skid_no", "task", "id");

-- The rules that every skid followed become the first version of a set, which every skid follows.
INSERT INTO "rule_set" ("id", "name") SELECT gen_random_uuid(), 'Usual rules' WHERE EXISTS (SELECT 1 FROM "upkeep_rule" WHERE "skid_id" IS NULL);
INSERT INTO "rule_set_version" ("id", "rule_set_id", "no", "created_by", "published_at", "published_by")
  SELECT gen_random_uuid(), "id", 1, 'Skidkeep', now(), 'Skidkeep' FROM "rule_set";
UPDATE "upkeep_rule" SET "rule_set_version_id" = (SELECT "id" FROM "rule_set_version") WHERE "skid_id" IS NULL;
UPDATE "skid" SET "rule_set_version_id" = (SELECT "id" FROM "rule_set_version");

CREATE UNIQUE INDEX "rule_set_name_key" ON "rule_set"("name");

CREATE UNIQUE INDEX "rule_set_version_rule_set_id_no_key" ON "rule_set_version"("rule_set_id", "no");

CREATE INDEX "rule_override_skid_id_idx" ON "rule_override"("skid_id");

CREATE UNIQUE INDEX "task_sheet_task_key" ON "task_sheet"("task");

CREATE UNIQUE INDEX "task_sheet_version_task_sheet_id_no_key" ON "task_sheet_version"("task_sheet_id", "no");

CREATE INDEX "work_ahead_week_idx" ON "work_ahead"("week");

CREATE INDEX "rule_set_change_skid_id_idx" ON "rule_set_change"("skid_id");

CREATE INDEX "upkeep_rule_rule_set_version_id_idx" ON "upkeep_rule"("rule_set_version_id");

CREATE INDEX "upkeep_rule_skid_id_idx" ON "upkeep_rule"("skid_id");

ALTER TABLE "rule_set_version" ADD CONSTRAINT "rule_set_version_rule_set_id_fkey" FOREIGN KEY ("rule_set_id") REFERENCES "rule_set"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "rule_set_change" ADD CONSTRAINT "rule_set_change_skid_id_fkey" FOREIGN KEY ("skid_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "rule_override" ADD CONSTRAINT "rule_override_skid_id_fkey" FOREIGN KEY ("skid_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "task_sheet_version" ADD CONSTRAINT "task_sheet_version_task_sheet_id_fkey" FOREIGN KEY ("task_sheet_id") REFERENCES "task_sheet"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "task_sheet_part" ADD CONSTRAINT "task_sheet_part_version_id_fkey" FOREIGN KEY ("version_id") REFERENCES "task_sheet_version"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "task_sheet_part" ADD CONSTRAINT "task_sheet_part_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "skid" ADD CONSTRAINT "skid_rule_set_version_id_fkey" FOREIGN KEY ("rule_set_version_id") REFERENCES "rule_set_version"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "upkeep_rule" ADD CONSTRAINT "upkeep_rule_rule_set_version_id_fkey" FOREIGN KEY ("rule_set_version_id") REFERENCES "rule_set_version"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "upkeep_rule" ADD CONSTRAINT "upkeep_rule_task_sheet_id_fkey" FOREIGN KEY ("task_sheet_id") REFERENCES "task_sheet"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

GRANT SELECT, INSERT, UPDATE, DELETE ON "rule_set", "rule_set_version", "task_sheet", "task_sheet_version", "task_sheet_part", "rule_override", "work_ahead", "rule_set_change" TO skidkeep_app;

GRANT SELECT ON "rule_override" TO skidkeep_client;

ALTER TABLE "rule_override" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "rule_override" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "rule_override" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
