CREATE TABLE "attachment" (
    "id" UUID NOT NULL,
    "client_id" UUID,
    "skid_id" UUID,
    "of_kind" TEXT NOT NULL,
    "of_id" UUID NOT NULL,
    "place" TEXT NOT NULL DEFAULT '',
    "name" TEXT NOT NULL,
    "media_type" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "sha256" TEXT NOT NULL,
    "content" BYTEA NOT NULL,
    "by_id" UUID NOT NULL,
    "by" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "attachment_pkey" PRIMARY KEY ("id")
);

-- Photographs and PDF are packed already.
ALTER TABLE "attachment" ALTER COLUMN "content" SET STORAGE EXTERNAL;

CREATE INDEX "attachment_of_kind_of_id_idx" ON "attachment"("of_kind", "of_id");

GRANT SELECT, INSERT, UPDATE, DELETE ON "attachment" TO skidkeep_app;

GRANT SELECT ON "attachment" TO skidkeep_client;

ALTER TABLE "attachment" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "staff" ON "attachment" TO skidkeep_app USING (true) WITH CHECK (true);
CREATE POLICY "own_rows" ON "attachment" FOR SELECT TO skidkeep_client USING ("client_id" = current_client());
