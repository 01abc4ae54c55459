-- What an hour, a kilometre and a night cost; nulls, or no row: nobody said.
CREATE TABLE "plan_rate" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "currency" TEXT NOT NULL,
    "work_hour" DECIMAL(14,4),
    "travel_hour" DECIMAL(14,4),
    "overtime_hour" DECIMAL(14,4),
    "kilometre" DECIMAL(14,4),
    "night_away" DECIMAL(14,4),
    "by" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "plan_rate_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "plan_rate_one" CHECK ("id" = 1)
);

GRANT SELECT, INSERT, UPDATE, DELETE ON "plan_rate" TO skidkeep_app;

ALTER TABLE "visit_plan" ADD COLUMN "rates" JSONB;

-- What people are owed: rest between days, a limit of overtime in the week, weeks on call.
ALTER TABLE "person_planning" ADD COLUMN "rest_hours" DOUBLE PRECISION,
ADD COLUMN "overtime_hours_a_week" DOUBLE PRECISION,
ADD COLUMN "on_call" JSONB NOT NULL DEFAULT '[]';

-- How people get into a site, and whom to call there.
ALTER TABLE "site_planning" ADD COLUMN "notice_days" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN "inductions" TEXT[] DEFAULT ARRAY[]::TEXT[],
ADD COLUMN "ferry" JSONB,
ADD COLUMN "open_months" INTEGER[] DEFAULT ARRAY[]::INTEGER[],
ADD COLUMN "escort" BOOLEAN NOT NULL DEFAULT false,
ADD COLUMN "access_note" TEXT NOT NULL DEFAULT '',
ADD COLUMN "contacts" JSONB NOT NULL DEFAULT '[]';
