CREATE TABLE "visit_answer" (
    "id" UUID NOT NULL,
    "visit_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "on_day" DATE NOT NULL,
    "start_time" TEXT NOT NULL,
    "minutes" INTEGER NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "proposed_at" TIMESTAMPTZ(3) NOT NULL,
    "proposed_by" TEXT NOT NULL,
    "answer" TEXT,
    "reason" TEXT NOT NULL DEFAULT '',
    "wished_days" DATE[],
    "answered_at" TIMESTAMPTZ(3),
    "answered_by" TEXT,
    "closed_at" TIMESTAMPTZ(3),

    CONSTRAINT "visit_answer_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "visit_answer_visit_id_idx" ON "visit_answer"("visit_id");

CREATE INDEX "visit_answer_client_id_idx" ON "visit_answer"("client_id");

ALTER TABLE "visit_answer" ADD CONSTRAINT "visit_answer_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "visit_answer" ADD CONSTRAINT "visit_answer_values" CHECK ("answer" IN ('confirmed', 'declined') AND ("answer" = 'confirmed' OR "reason" <> '')
  AND ("answer" IS NULL) = ("answered_at" IS NULL));

-- Of a visit one proposal is open at a time.
CREATE UNIQUE INDEX "visit_answer_open" ON "visit_answer"("visit_id") WHERE "closed_at" IS NULL;

GRANT SELECT, INSERT, UPDATE, DELETE ON "visit_answer" TO skidkeep_app;
GRANT SELECT ON "visit_answer" TO skidkeep_client;

ALTER TABLE "visit_answer" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "visit_answer" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "visit_answer" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
