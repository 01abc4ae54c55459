CREATE TABLE "place" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "site_id" UUID,
    "person_id" UUID,
    "note" TEXT NOT NULL DEFAULT '',
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "place_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "stock_post" (
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "entered_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,
    "by" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "request_hash" TEXT NOT NULL,
    "job_id" UUID,
    "report_id" UUID,
    "reverses" UUID,

    CONSTRAINT "stock_post_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "stock_move" (
    "id" BIGSERIAL NOT NULL,
    "post_id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "lot" TEXT,
    "part_id" UUID,
    "quantity" DECIMAL(18,6) NOT NULL,
    "from_place_id" UUID,
    "to_place_id" UUID,

    CONSTRAINT "stock_move_pkey" PRIMARY KEY ("id")
);

CREATE UNIQUE INDEX "place_name_key" ON "place"("name");

CREATE INDEX "stock_post_job_id_idx" ON "stock_post"("job_id");

CREATE INDEX "stock_move_post_id_idx" ON "stock_move"("post_id");

CREATE INDEX "stock_move_from_place_id_item_id_idx" ON "stock_move"("from_place_id", "item_id");

CREATE INDEX "stock_move_to_place_id_item_id_idx" ON "stock_move"("to_place_id", "item_id");

ALTER TABLE "place" ADD CONSTRAINT "place_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "place" ADD CONSTRAINT "place_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "stock_move" ADD CONSTRAINT "stock_move_post_id_fkey" FOREIGN KEY ("post_id") REFERENCES "stock_post"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "stock_move" ADD CONSTRAINT "stock_move_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "stock_move" ADD CONSTRAINT "stock_move_part_id_fkey" FOREIGN KEY ("part_id") REFERENCES "part"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "stock_move" ADD CONSTRAINT "stock_move_from_place_id_fkey" FOREIGN KEY ("from_place_id") REFERENCES "place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "stock_move" ADD CONSTRAINT "stock_move_to_place_id_fkey" FOREIGN KEY ("to_place_id") REFERENCES "place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

GRANT SELECT, INSERT, UPDATE, DELETE ON "place", "stock_post", "stock_move" TO skidkeep_app;
GRANT USAGE ON ALL SEQUENCES IN SCHEMA public TO skidkeep_app;
