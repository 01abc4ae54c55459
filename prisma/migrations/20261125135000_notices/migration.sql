CREATE TABLE "notice_choice" (
    "person_id" UUID NOT NULL,
    "digest" TEXT NOT NULL,
    "hour" INTEGER NOT NULL,
    "time_zone" TEXT NOT NULL,
    "at_once" BOOLEAN NOT NULL,

    CONSTRAINT "notice_choice_pkey" PRIMARY KEY ("person_id")
);

CREATE TABLE "digest_day" (
    "person_id" UUID NOT NULL,
    "day" DATE NOT NULL,

    CONSTRAINT "digest_day_pkey" PRIMARY KEY ("person_id")
);

CREATE TABLE "mail" (
    "id" UUID NOT NULL,
    "person_id" UUID,
    "to" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "job_id" UUID,
    "subject" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "once_key" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "sent_at" TIMESTAMPTZ(3),
    "given_up_at" TIMESTAMPTZ(3),
    "tries" INTEGER NOT NULL DEFAULT 0,
    "next_try_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "last_error" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "mail_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "calendar_address" (
    "id" UUID NOT NULL,
    "token_hash" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "ended_at" TIMESTAMPTZ(3),
    "last_read_at" TIMESTAMPTZ(3),

    CONSTRAINT "calendar_address_pkey" PRIMARY KEY ("id")
);

CREATE UNIQUE INDEX "mail_once_key_key" ON "mail"("once_key");

CREATE INDEX "mail_created_at_idx" ON "mail"("created_at");

CREATE INDEX "mail_sent_at_given_up_at_next_try_at_idx" ON "mail"("sent_at", "given_up_at", "next_try_at");

CREATE UNIQUE INDEX "calendar_address_token_hash_key" ON "calendar_address"("token_hash");

CREATE INDEX "calendar_address_person_id_idx" ON "calendar_address"("person_id");

ALTER TABLE "notice_choice" ADD CONSTRAINT "notice_choice_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "digest_day" ADD CONSTRAINT "digest_day_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "calendar_address" ADD CONSTRAINT "calendar_address_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE CASCADE ON UPDATE CASCADE;

GRANT SELECT, INSERT, UPDATE, DELETE ON "notice_choice", "digest_day", "mail", "calendar_address" TO skidkeep_app;
