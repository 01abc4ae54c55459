-- A value that replaced another one comes from a later load than the reading it belongs to.
ALTER TABLE "hand_value" ADD COLUMN "load_no" INTEGER;
UPDATE "hand_value" v SET "load_no" = r."load_no" FROM "hand_reading" r WHERE r."id" = v."hand_reading_id";
ALTER TABLE "hand_value" ALTER COLUMN "load_no" SET NOT NULL;

-- CREATE TABLE ... PARTITION OF locks the parent against everybody until the end of the transaction, and would wait for a load that is writing to it.
-- ATTACH PARTITION lets readers and writers go on, so that a load can have its months made from another session.
CREATE OR REPLACE FUNCTION ensure_sample_month(moment timestamptz) RETURNS void LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  month_start timestamptz := date_trunc('month', moment, 'UTC');
  month_end timestamptz := date_trunc('month', month_start + interval '32 days', 'UTC');
  partition_name text := 'sample_' || to_char(month_start AT TIME ZONE 'UTC', 'YYYY_MM');
BEGIN
  IF to_regclass(quote_ident(partition_name)) IS NOT NULL THEN RETURN; END IF;
  PERFORM pg_advisory_xact_lock(hashtext('ensure_sample_month'));
  IF to_regclass(quote_ident(partition_name)) IS NOT NULL THEN RETURN; END IF;
  EXECUTE format('CREATE TABLE %I (LIKE sample INCLUDING ALL)', partition_name);
  EXECUTE format('ALTER TABLE sample ATTACH PARTITION %I FOR VALUES FROM (%L) TO (%L)', partition_name, month_start, month_end);
END $$;
