CREATE TABLE "visit_plan" (
    "id" UUID NOT NULL,
    "no" SERIAL NOT NULL,
    "replaces_id" UUID,
    "made_at" TIMESTAMPTZ(3) NOT NULL,
    "made_by_id" UUID NOT NULL,
    "made_by" TEXT NOT NULL,
    "first_day" DATE NOT NULL,
    "days" INTEGER NOT NULL,
    "seed" INTEGER NOT NULL,
    "seconds" INTEGER NOT NULL,
    "keep_hours" INTEGER NOT NULL,
    "verdict" TEXT NOT NULL,
    "asked" JSONB NOT NULL,
    "costs" JSONB NOT NULL,
    "tours" JSONB NOT NULL,
    "changes" JSONB NOT NULL,
    "people_left_out" JSONB NOT NULL,
    "travel_said" TEXT,

    CONSTRAINT "visit_plan_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "plan_line" (
    "id" UUID NOT NULL,
    "plan_id" UUID NOT NULL,
    "place" INTEGER NOT NULL,
    "change" TEXT NOT NULL,
    "visit_id" UUID,
    "visit_version" INTEGER,
    "promised" BOOLEAN NOT NULL,
    "was" JSONB,
    "site_id" UUID NOT NULL,
    "on_day" DATE NOT NULL,
    "start_time" TEXT NOT NULL,
    "end_time" TEXT NOT NULL,
    "travel_minutes" INTEGER NOT NULL,
    "work_minutes" INTEGER NOT NULL,
    "people" JSONB NOT NULL,
    "work" JSONB NOT NULL,
    "reason" TEXT NOT NULL,
    "why" JSONB NOT NULL,

    CONSTRAINT "plan_line_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "plan_left_out" (
    "id" UUID NOT NULL,
    "plan_id" UUID NOT NULL,
    "place" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "work_id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "text" TEXT NOT NULL,
    "urgent" BOOLEAN NOT NULL,
    "promised" BOOLEAN NOT NULL,
    "reason" TEXT NOT NULL,

    CONSTRAINT "plan_left_out_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "plan_acceptance" (
    "line_id" UUID NOT NULL,
    "visit_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID NOT NULL,
    "by" TEXT NOT NULL,

    CONSTRAINT "plan_acceptance_pkey" PRIMARY KEY ("line_id")
);

CREATE UNIQUE INDEX "visit_plan_no_key" ON "visit_plan"("no");
-- A version is replaced once: of two people who plan anew from the same one, the second is told of the first.
CREATE UNIQUE INDEX "visit_plan_replaces_id_key" ON "visit_plan"("replaces_id");
CREATE UNIQUE INDEX "plan_line_plan_id_place_key" ON "plan_line"("plan_id", "place");
CREATE INDEX "plan_line_visit_id_idx" ON "plan_line"("visit_id");
CREATE UNIQUE INDEX "plan_left_out_plan_id_place_key" ON "plan_left_out"("plan_id", "place");
CREATE INDEX "plan_acceptance_visit_id_idx" ON "plan_acceptance"("visit_id");

ALTER TABLE "visit_plan" ADD CONSTRAINT "visit_plan_replaces_id_fkey" FOREIGN KEY ("replaces_id") REFERENCES "visit_plan"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "plan_line" ADD CONSTRAINT "plan_line_plan_id_fkey" FOREIGN KEY ("plan_id") REFERENCES "visit_plan"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "plan_line" ADD CONSTRAINT "plan_line_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "plan_line" ADD CONSTRAINT "plan_line_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "plan_left_out" ADD CONSTRAINT "plan_left_out_plan_id_fkey" FOREIGN KEY ("plan_id") REFERENCES "visit_plan"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "plan_left_out" ADD CONSTRAINT "plan_left_out_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "plan_acceptance" ADD CONSTRAINT "plan_acceptance_line_id_fkey" FOREIGN KEY ("line_id") REFERENCES "plan_line"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "plan_acceptance" ADD CONSTRAINT "plan_acceptance_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "visit_plan" ADD CONSTRAINT "visit_plan_values" CHECK ("days" BETWEEN 1 AND 56 AND "keep_hours" >= 0 AND "verdict" IN ('whole', 'work left out', 'promise not kept'));
ALTER TABLE "plan_line" ADD CONSTRAINT "plan_line_values" CHECK ("change" IN ('new', 'stays', 'shift') AND ("visit_id" IS NULL) = ("change" = 'new')
  AND ("visit_id" IS NULL) = ("visit_version" IS NULL) AND ("visit_id" IS NULL) = ("was" IS NULL) AND NOT ("promised" AND "change" <> 'stays'));
ALTER TABLE "plan_left_out" ADD CONSTRAINT "plan_left_out_values" CHECK ("kind" IN ('job', 'due', 'visit'));

-- What was planned stays as it was: rows are added and read, never edited.
GRANT SELECT, INSERT ON "visit_plan", "plan_line", "plan_left_out", "plan_acceptance" TO skidkeep_app;
GRANT USAGE ON SEQUENCE "visit_plan_no_seq" TO skidkeep_app;
