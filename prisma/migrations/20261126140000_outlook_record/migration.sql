CREATE TABLE "outlook_score" (
    "outlook_id" BIGINT NOT NULL,
    "skid_no" INTEGER NOT NULL,
    "client_id" UUID NOT NULL,
    "life" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "ended_on" DATE,
    "truth_days" INTEGER NOT NULL,
    "error_days" DOUBLE PRECISION,
    "inside" BOOLEAN,
    "said_too_early" BOOLEAN NOT NULL DEFAULT false,

    CONSTRAINT "outlook_score_pkey" PRIMARY KEY ("outlook_id")
);

CREATE INDEX "outlook_score_skid_no_idx" ON "outlook_score"("skid_no");

CREATE INDEX "outlook_skid_no_origin_day_idx" ON "outlook"("skid_no", "origin_day");

ALTER TABLE "outlook_score" ADD CONSTRAINT "outlook_score_outlook_id_fkey" FOREIGN KEY ("outlook_id") REFERENCES "outlook"("id") ON DELETE CASCADE ON UPDATE CASCADE;

GRANT SELECT, INSERT, UPDATE, DELETE ON "outlook_score" TO skidkeep_app;

GRANT SELECT ON "outlook_score" TO skidkeep_client;

ALTER TABLE "outlook_score" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "outlook_score" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "outlook_score" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());

ALTER TABLE "outlook" ADD COLUMN "afterwards" BOOLEAN NOT NULL DEFAULT false;
