CREATE TABLE "notice_choice" (
    "person_id" UUID NOT NULL,
    "digest" TEXT NOT NULL DEFAULT 'daily',
    "hour" INTEGER NOT NULL DEFAULT 7,
    "time_zone" TEXT NOT NULL DEFAULT 'UTC',
    "at_once" BOOLEAN NOT NULL DEFAULT true,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "notice_choice_pkey" PRIMARY KEY ("person_id")
);

CREATE TABLE "mail" (
    "id" UUID NOT NULL,
    "person_id" UUID,
    "to" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "once_key" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "sent_at" TIMESTAMPTZ(3),
    "tries" INTEGER NOT NULL DEFAULT 0,
    "next_try_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "last_error" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "mail_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "calendar_address" (
    "token_hash" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "ended_at" TIMESTAMPTZ(3),
    "last_read_at" TIMESTAMPTZ(3),

    CONSTRAINT "calendar_address_pkey" PRIMARY KEY ("token_hash")
);

CREATE UNIQUE INDEX "mail_once_key_key" ON "mail"("once_key");

CREATE INDEX "mail_sent_at_next_try_at_idx" ON "mail"("sent_at", "next_try_at");

CREATE INDEX "calendar_address_person_id_idx" ON "calendar_address"("person_id");

ALTER TABLE "notice_choice" ADD CONSTRAINT "notice_choice_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "calendar_address" ADD CONSTRAINT "calendar_address_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE CASCADE ON UPDATE CASCADE;

GRANT SELECT, INSERT, UPDATE, DELETE ON "notice_choice", "mail", "calendar_address" TO skidkeep_app;
