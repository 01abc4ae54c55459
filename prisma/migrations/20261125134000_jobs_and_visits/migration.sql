CREATE TABLE "job" (
    "id" UUID NOT NULL,
    "no" SERIAL NOT NULL,
    "client_id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "request" TEXT NOT NULL DEFAULT '',
    "state" TEXT NOT NULL DEFAULT 'open',
    "state_note" TEXT NOT NULL DEFAULT '',
    "earliest_on" DATE,
    "best_on" DATE,
    "latest_on" DATE,
    "visit_id" UUID,
    "follows_job_id" UUID,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "created_by_id" UUID,
    "created_by" TEXT NOT NULL,
    "finished_at" TIMESTAMPTZ(3),
    "finished_by" TEXT,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "job_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "job_task" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "place" INTEGER NOT NULL,
    "task" TEXT NOT NULL,
    "kind" TEXT NOT NULL DEFAULT 'service',
    "position_id" UUID,
    "sheet_version_id" UUID,
    "rule_id" UUID,
    "outlook_id" BIGINT,
    "reason" TEXT NOT NULL DEFAULT '',
    "due_on" DATE,
    "latest_on" DATE,
    "expected_minutes" INTEGER,
    "outcome" TEXT,
    "done_at" TIMESTAMPTZ(3),

    CONSTRAINT "job_task_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "job_change" (
    "id" BIGSERIAL NOT NULL,
    "job_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID,
    "by" TEXT NOT NULL,
    "what" TEXT NOT NULL,
    "from" TEXT NOT NULL DEFAULT '',
    "to" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    "to_client" BOOLEAN NOT NULL DEFAULT false,

    CONSTRAINT "job_change_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "job_report" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "by_id" UUID NOT NULL,
    "by" TEXT NOT NULL,
    "started_at" TIMESTAMPTZ(3) NOT NULL,
    "finished_at" TIMESTAMPTZ(3) NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "state" TEXT NOT NULL,
    "minutes" DOUBLE PRECISION NOT NULL,
    "content" JSONB NOT NULL,
    "content_hash" TEXT NOT NULL,
    "problems" JSONB NOT NULL DEFAULT '[]',
    "summary" JSONB NOT NULL,
    "signed_by" TEXT NOT NULL DEFAULT '',
    "load_no" INTEGER,
    "settled_by" TEXT,
    "settled_at" TIMESTAMPTZ(3),
    "settled_note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "job_report_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "breakdown" (
    "job_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "skid_id" UUID NOT NULL,
    "severity" TEXT NOT NULL,
    "source" TEXT NOT NULL,
    "sign" TEXT,
    "sign_over_at" TIMESTAMPTZ(3),
    "noticed_at" TIMESTAMPTZ(3) NOT NULL,
    "down_from" TIMESTAMPTZ(3),
    "restored_at" TIMESTAMPTZ(3),
    "repair_minutes" DOUBLE PRECISION,
    "position_id" UUID,
    "taken_by_id" UUID,
    "taken_by" TEXT,
    "taken_at" TIMESTAMPTZ(3),
    "telephone" TEXT NOT NULL DEFAULT '',
    "ended_by" TEXT,
    "failure_mode" TEXT,
    "mechanism" TEXT,
    "cause" TEXT NOT NULL DEFAULT '',
    "remedy" TEXT NOT NULL DEFAULT '',
    "told_at" TIMESTAMPTZ(3),

    CONSTRAINT "breakdown_pkey" PRIMARY KEY ("job_id")
);

CREATE TABLE "visit" (
    "id" UUID NOT NULL,
    "no" SERIAL NOT NULL,
    "client_id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "on_day" DATE NOT NULL,
    "start_time" TEXT NOT NULL,
    "minutes" INTEGER NOT NULL,
    "minutes_given" BOOLEAN NOT NULL DEFAULT false,
    "state" TEXT NOT NULL DEFAULT 'planned',
    "note" TEXT NOT NULL DEFAULT '',
    "note_to_client" TEXT NOT NULL DEFAULT '',
    "promised_at" TIMESTAMPTZ(3),
    "promised_by" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "created_by" TEXT NOT NULL,
    "finished_at" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "visit_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "visit_person" (
    "visit_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "name" TEXT NOT NULL,

    CONSTRAINT "visit_person_pkey" PRIMARY KEY ("visit_id","person_id")
);

CREATE TABLE "visit_change" (
    "id" BIGSERIAL NOT NULL,
    "visit_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by" TEXT NOT NULL,
    "what" TEXT NOT NULL,
    "from" TEXT NOT NULL DEFAULT '',
    "to" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    "to_client" BOOLEAN NOT NULL DEFAULT false,

    CONSTRAINT "visit_change_pkey" PRIMARY KEY ("id")
);

CREATE UNIQUE INDEX "job_no_key" ON "job"("no");

CREATE INDEX "job_skid_id_state_idx" ON "job"("skid_id", "state");

CREATE INDEX "job_site_id_idx" ON "job"("site_id");

CREATE INDEX "job_visit_id_idx" ON "job"("visit_id");

CREATE INDEX "job_state_idx" ON "job"("state");

CREATE INDEX "job_task_job_id_idx" ON "job_task"("job_id");

CREATE INDEX "job_task_position_id_task_idx" ON "job_task"("position_id", "task");

CREATE INDEX "job_change_job_id_idx" ON "job_change"("job_id");

CREATE INDEX "job_report_job_id_idx" ON "job_report"("job_id");

CREATE INDEX "breakdown_skid_id_idx" ON "breakdown"("skid_id");

CREATE UNIQUE INDEX "visit_no_key" ON "visit"("no");

CREATE INDEX "visit_on_day_idx" ON "visit"("on_day");

CREATE INDEX "visit_site_id_on_day_idx" ON "visit"("site_id", "on_day");

CREATE INDEX "visit_person_person_id_idx" ON "visit_person"("person_id");

CREATE INDEX "visit_change_visit_id_idx" ON "visit_change"("visit_id");

ALTER TABLE "job" ADD CONSTRAINT "job_skid_id_fkey" FOREIGN KEY ("skid_id") REFERENCES "skid"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "job" ADD CONSTRAINT "job_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "job" ADD CONSTRAINT "job_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "job" ADD CONSTRAINT "job_follows_job_id_fkey" FOREIGN KEY ("follows_job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "job_task" ADD CONSTRAINT "job_task_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "job_task" ADD CONSTRAINT "job_task_position_id_fkey" FOREIGN KEY ("position_id") REFERENCES "position"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "job_task" ADD CONSTRAINT "job_task_sheet_version_id_fkey" FOREIGN KEY ("sheet_version_id") REFERENCES "task_sheet_version"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "job_change" ADD CONSTRAINT "job_change_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "job_report" ADD CONSTRAINT "job_report_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "breakdown" ADD CONSTRAINT "breakdown_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "visit" ADD CONSTRAINT "visit_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "visit_person" ADD CONSTRAINT "visit_person_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "visit_person" ADD CONSTRAINT "visit_person_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "visit_change" ADD CONSTRAINT "visit_change_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "visit" ADD CONSTRAINT "visit_state" CHECK ("state" IN ('planned', 'promised', 'under way', 'finished', 'called off'));
ALTER TABLE "visit" ADD CONSTRAINT "visit_start_time" CHECK ("start_time" ~ '^([01][0-9]|2[0-3]):[0-5][0-9]$');
ALTER TABLE "visit" ADD CONSTRAINT "visit_minutes" CHECK ("minutes" > 0);

GRANT SELECT, INSERT, UPDATE, DELETE ON "visit", "visit_person", "visit_change", "job", "job_task", "job_change", "job_report", "breakdown" TO skidkeep_app;
GRANT USAGE ON ALL SEQUENCES IN SCHEMA public TO skidkeep_app;

GRANT SELECT ON "visit_person", "visit_change", "job", "job_task", "job_change", "breakdown" TO skidkeep_client;

-- Of a visit a client reads all but the note of the department.
GRANT SELECT ("id", "no", "client_id", "site_id", "on_day", "start_time", "minutes", "state", "note_to_client", "promised_at", "finished_at", "version") ON "visit" TO skidkeep_client;

-- Of a report a client reads what was done; what was sent, from which stock and with which problems, is the department's.
GRANT SELECT ("id", "job_id", "client_id", "by", "started_at", "finished_at", "received_at", "state", "minutes", "summary", "signed_by") ON "job_report" TO skidkeep_client;

ALTER TABLE "visit" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "visit" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "visit" FOR SELECT TO skidkeep_client USING ("client_id" = current_client()
  AND ("state" IN ('promised', 'under way', 'finished') OR "state" = 'called off' AND "promised_at" IS NOT NULL));

ALTER TABLE "visit_person" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "visit_person" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "visit_person" FOR SELECT TO skidkeep_client USING (EXISTS (SELECT 1 FROM "visit" v WHERE v."id" = "visit_id"));

ALTER TABLE "visit_change" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "visit_change" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "visit_change" FOR SELECT TO skidkeep_client USING ("client_id" = current_client() AND "to_client" AND EXISTS (SELECT 1 FROM "visit" v WHERE v."id" = "visit_id"));

ALTER TABLE "job" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "job" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "job" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());

ALTER TABLE "job_task" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "job_task" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "job_task" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());

ALTER TABLE "job_change" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "job_change" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "job_change" FOR SELECT TO skidkeep_client USING ("client_id" = current_client() AND "to_client");

ALTER TABLE "breakdown" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "breakdown" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "breakdown" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());

ALTER TABLE "job_report" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "job_report" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "job_report" FOR SELECT TO skidkeep_client USING ("client_id" = current_client() AND "state" = 'counts');
