CREATE TABLE "travel_region" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "is_usual" BOOLEAN NOT NULL DEFAULT false,
    "site_ids" UUID[],
    "factor" DOUBLE PRECISION NOT NULL,
    "near_kmh" DOUBLE PRECISION NOT NULL,
    "far_kmh" DOUBLE PRECISION NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "travel_region_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "travel_override" (
    "id" UUID NOT NULL,
    "from_id" UUID NOT NULL,
    "to_id" UUID NOT NULL,
    "both_ways" BOOLEAN NOT NULL,
    "minutes" INTEGER NOT NULL,
    "km" DOUBLE PRECISION NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "travel_override_pkey" PRIMARY KEY ("id")
);

CREATE UNIQUE INDEX "travel_region_name_key" ON "travel_region"("name");

CREATE UNIQUE INDEX "travel_override_from_id_to_id_key" ON "travel_override"("from_id", "to_id");

ALTER TABLE "travel_region" ADD CONSTRAINT "travel_region_values" CHECK ("factor" BETWEEN 1 AND 5 AND "near_kmh" BETWEEN 1 AND 200 AND "far_kmh" BETWEEN 1 AND 200);
ALTER TABLE "travel_override" ADD CONSTRAINT "travel_override_values" CHECK ("from_id" <> "to_id" AND "minutes" > 0 AND "km" >= 0);

-- Everywhere else: one row, always there.
CREATE UNIQUE INDEX "travel_region_usual" ON "travel_region"("is_usual") WHERE "is_usual";
INSERT INTO "travel_region" ("id", "name", "is_usual", "site_ids", "factor", "near_kmh", "far_kmh") VALUES (gen_random_uuid(), 'Everywhere else', true, '{}', 1.3, 35, 70);

GRANT SELECT, INSERT, UPDATE, DELETE ON "travel_region", "travel_override" TO skidkeep_app;
