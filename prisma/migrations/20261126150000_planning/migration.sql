CREATE TABLE "person_planning" (
    "person_id" UUID NOT NULL,
    "latitude" DOUBLE PRECISION NOT NULL,
    "longitude" DOUBLE PRECISION NOT NULL,
    "work_days" INTEGER[],
    "shift_from" TEXT NOT NULL,
    "regular_until" TEXT NOT NULL,
    "shift_until" TEXT NOT NULL,
    "most_nights" INTEGER NOT NULL DEFAULT 0,
    "skills" JSONB NOT NULL DEFAULT '[]',
    "days_off" JSONB NOT NULL DEFAULT '[]',
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "person_planning_pkey" PRIMARY KEY ("person_id")
);

CREATE TABLE "site_planning" (
    "site_id" UUID NOT NULL,
    "windows" JSONB NOT NULL DEFAULT '[]',
    "extra_minutes" INTEGER NOT NULL DEFAULT 0,
    "may_work_alone" BOOLEAN NOT NULL DEFAULT true,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "site_planning_pkey" PRIMARY KEY ("site_id")
);

ALTER TABLE "person_planning" ADD CONSTRAINT "person_planning_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "site_planning" ADD CONSTRAINT "site_planning_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE CASCADE ON UPDATE CASCADE;

GRANT SELECT, INSERT, UPDATE, DELETE ON "person_planning", "site_planning" TO skidkeep_app;
