ALTER TABLE "gateway_key" ADD COLUMN "ended_by" TEXT;
ALTER TABLE "gateway_key" ADD COLUMN "last_used_at" TIMESTAMPTZ(3);
