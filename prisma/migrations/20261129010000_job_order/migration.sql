-- A job that is to be done after another one
ALTER TABLE "job" ADD COLUMN "after_job_id" UUID,
ADD CONSTRAINT "job_after_job_id_fkey" FOREIGN KEY ("after_job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE,
ADD CONSTRAINT "job_not_after_itself" CHECK ("after_job_id" <> "id");
CREATE INDEX "job_after_job_id_idx" ON "job"("after_job_id");
