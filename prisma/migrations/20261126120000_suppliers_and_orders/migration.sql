CREATE TABLE "store_setting" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "reckoning_currency" TEXT NOT NULL DEFAULT 'EUR',
    "manager_approves_above" DECIMAL(14,4),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "store_setting_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "currency_rate" (
    "currency" TEXT NOT NULL,
    "from_day" DATE NOT NULL,
    "rate" DECIMAL(18,6) NOT NULL,
    "by" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "currency_rate_pkey" PRIMARY KEY ("currency","from_day")
);

CREATE TABLE "supplier" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "currency" TEXT NOT NULL,
    "email" TEXT,
    "contacts" TEXT NOT NULL DEFAULT '',
    "customer_number" TEXT NOT NULL DEFAULT '',
    "lead_days" INTEGER,
    "minimum_order" DECIMAL(14,4),
    "order_weekday" INTEGER,
    "order_cost" DECIMAL(14,4),
    "note" TEXT NOT NULL DEFAULT '',
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "supplier_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "item_supply" (
    "item_id" UUID NOT NULL,
    "criticality" TEXT NOT NULL DEFAULT 'can wait',
    "shelf_life_days" INTEGER,
    "review_days" INTEGER NOT NULL DEFAULT 0,
    "superseded_by_id" UUID,
    "strength_percent" DECIMAL(7,4),
    "content_amount" DECIMAL(18,6),
    "content_ucum" TEXT,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "item_supply_pkey" PRIMARY KEY ("item_id")
);

CREATE TABLE "item_alternative" (
    "item_id" UUID NOT NULL,
    "alternative_id" UUID NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "item_alternative_pkey" PRIMARY KEY ("item_id","alternative_id")
);

CREATE TABLE "item_hazard" (
    "id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "from_percent" DECIMAL(7,4) NOT NULL,
    "below_percent" DECIMAL(7,4),
    "un_number" TEXT,
    "packing_group" TEXT,
    "signal_word" TEXT NOT NULL DEFAULT '',
    "statements" TEXT[],

    CONSTRAINT "item_hazard_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "bar_code" (
    "id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "item_id" UUID NOT NULL,
    "quantity" DECIMAL(18,6) NOT NULL DEFAULT 1,
    "note" TEXT NOT NULL DEFAULT '',
    "by" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "bar_code_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "offer" (
    "id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "supplier_id" UUID NOT NULL,
    "supplier_code" TEXT NOT NULL DEFAULT '',
    "purchase_unit" TEXT NOT NULL,
    "units_per_purchase" DECIMAL(18,6) NOT NULL,
    "pack" DECIMAL(18,6) NOT NULL DEFAULT 1,
    "minimum_quantity" DECIMAL(18,6) NOT NULL DEFAULT 0,
    "lead_days" INTEGER,
    "rank" INTEGER NOT NULL DEFAULT 1,
    "note" TEXT NOT NULL DEFAULT '',
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "offer_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "offer_price" (
    "offer_id" UUID NOT NULL,
    "from_day" DATE NOT NULL,
    "price" DECIMAL(14,4) NOT NULL,
    "by" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "offer_price_pkey" PRIMARY KEY ("offer_id","from_day")
);

CREATE TABLE "purchase_order" (
    "id" UUID NOT NULL,
    "no" SERIAL NOT NULL,
    "supplier_id" UUID NOT NULL,
    "place_id" UUID NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'draft',
    "currency" TEXT NOT NULL,
    "rate" DECIMAL(18,6),
    "note" TEXT NOT NULL DEFAULT '',
    "promised_on" DATE,
    "made_at" TIMESTAMPTZ(3) NOT NULL,
    "made_by" TEXT NOT NULL,
    "approved_at" TIMESTAMPTZ(3),
    "approved_by" TEXT,
    "sent_at" TIMESTAMPTZ(3),
    "sent_by" TEXT,
    "sent_how" TEXT,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" TEXT,
    "end_reason" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "purchase_order_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "purchase_order_line" (
    "id" UUID NOT NULL,
    "order_id" UUID NOT NULL,
    "no" INTEGER NOT NULL,
    "item_id" UUID NOT NULL,
    "supplier_code" TEXT NOT NULL DEFAULT '',
    "unit" TEXT NOT NULL,
    "units_per_purchase" DECIMAL(18,6) NOT NULL,
    "quantity" DECIMAL(18,6) NOT NULL,
    "price" DECIMAL(14,4),
    "needed_on" DATE,
    "reason" TEXT NOT NULL DEFAULT '',
    "proposal_id" UUID,

    CONSTRAINT "purchase_order_line_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "purchase_order_change" (
    "id" BIGSERIAL NOT NULL,
    "order_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID NOT NULL,
    "by" TEXT NOT NULL,
    "what" TEXT NOT NULL,
    "detail" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "purchase_order_change_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "order_receipt" (
    "id" UUID NOT NULL,
    "order_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "entered_at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID NOT NULL,
    "by" TEXT NOT NULL,
    "delivery_note" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    "request_hash" TEXT NOT NULL,
    "post_id" UUID,
    "taken_back_at" TIMESTAMPTZ(3),

    CONSTRAINT "order_receipt_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "order_receipt_line" (
    "id" BIGSERIAL NOT NULL,
    "receipt_id" UUID NOT NULL,
    "line_id" UUID NOT NULL,
    "outcome" TEXT NOT NULL,
    "item_id" UUID,
    "quantity" DECIMAL(18,6) NOT NULL,
    "place_id" UUID,
    "lot" TEXT,
    "expires_on" DATE,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "order_receipt_line_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "supplier_return" (
    "id" UUID NOT NULL,
    "order_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID NOT NULL,
    "by" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "request_hash" TEXT NOT NULL,
    "post_id" UUID,

    CONSTRAINT "supplier_return_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "supplier_return_line" (
    "id" BIGSERIAL NOT NULL,
    "return_id" UUID NOT NULL,
    "outcome" TEXT NOT NULL,
    "line_id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "quantity" DECIMAL(18,6) NOT NULL,
    "place_id" UUID NOT NULL,
    "lot" TEXT,
    "replaced" BOOLEAN NOT NULL DEFAULT true,

    CONSTRAINT "supplier_return_line_pkey" PRIMARY KEY ("id")
);

CREATE UNIQUE INDEX "supplier_name_key" ON "supplier"("name");

CREATE INDEX "item_supply_superseded_by_id_idx" ON "item_supply"("superseded_by_id");

CREATE INDEX "item_alternative_alternative_id_idx" ON "item_alternative"("alternative_id");

CREATE INDEX "item_hazard_item_id_idx" ON "item_hazard"("item_id");

CREATE UNIQUE INDEX "bar_code_code_key" ON "bar_code"("code");

CREATE INDEX "bar_code_item_id_idx" ON "bar_code"("item_id");

CREATE INDEX "offer_supplier_id_idx" ON "offer"("supplier_id");

CREATE UNIQUE INDEX "offer_item_id_supplier_id_key" ON "offer"("item_id", "supplier_id");

CREATE UNIQUE INDEX "purchase_order_no_key" ON "purchase_order"("no");

CREATE INDEX "purchase_order_supplier_id_state_idx" ON "purchase_order"("supplier_id", "state");

CREATE INDEX "purchase_order_state_sent_at_idx" ON "purchase_order"("state", "sent_at");

CREATE INDEX "purchase_order_line_item_id_idx" ON "purchase_order_line"("item_id");

CREATE INDEX "purchase_order_line_proposal_id_idx" ON "purchase_order_line"("proposal_id");

CREATE UNIQUE INDEX "purchase_order_line_order_id_no_key" ON "purchase_order_line"("order_id", "no");

CREATE INDEX "purchase_order_change_order_id_id_idx" ON "purchase_order_change"("order_id", "id");

CREATE UNIQUE INDEX "order_receipt_post_id_key" ON "order_receipt"("post_id");

CREATE INDEX "order_receipt_order_id_at_idx" ON "order_receipt"("order_id", "at");

CREATE INDEX "order_receipt_line_receipt_id_idx" ON "order_receipt_line"("receipt_id");

CREATE INDEX "order_receipt_line_line_id_idx" ON "order_receipt_line"("line_id");

CREATE UNIQUE INDEX "supplier_return_post_id_key" ON "supplier_return"("post_id");

CREATE INDEX "supplier_return_order_id_idx" ON "supplier_return"("order_id");

CREATE INDEX "supplier_return_line_return_id_idx" ON "supplier_return_line"("return_id");

CREATE INDEX "supplier_return_line_line_id_idx" ON "supplier_return_line"("line_id");

ALTER TABLE "item_supply" ADD CONSTRAINT "item_supply_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "item_supply" ADD CONSTRAINT "item_supply_superseded_by_id_fkey" FOREIGN KEY ("superseded_by_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "item_alternative" ADD CONSTRAINT "item_alternative_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "item_alternative" ADD CONSTRAINT "item_alternative_alternative_id_fkey" FOREIGN KEY ("alternative_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "item_hazard" ADD CONSTRAINT "item_hazard_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "bar_code" ADD CONSTRAINT "bar_code_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "offer" ADD CONSTRAINT "offer_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "offer" ADD CONSTRAINT "offer_supplier_id_fkey" FOREIGN KEY ("supplier_id") REFERENCES "supplier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "offer_price" ADD CONSTRAINT "offer_price_offer_id_fkey" FOREIGN KEY ("offer_id") REFERENCES "offer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "purchase_order" ADD CONSTRAINT "purchase_order_supplier_id_fkey" FOREIGN KEY ("supplier_id") REFERENCES "supplier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "purchase_order_line" ADD CONSTRAINT "purchase_order_line_order_id_fkey" FOREIGN KEY ("order_id") REFERENCES "purchase_order"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "purchase_order_line" ADD CONSTRAINT "purchase_order_line_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "purchase_order_change" ADD CONSTRAINT "purchase_order_change_order_id_fkey" FOREIGN KEY ("order_id") REFERENCES "purchase_order"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "order_receipt" ADD CONSTRAINT "order_receipt_order_id_fkey" FOREIGN KEY ("order_id") REFERENCES "purchase_order"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "order_receipt_line" ADD CONSTRAINT "order_receipt_line_receipt_id_fkey" FOREIGN KEY ("receipt_id") REFERENCES "order_receipt"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "order_receipt_line" ADD CONSTRAINT "order_receipt_line_line_id_fkey" FOREIGN KEY ("line_id") REFERENCES "purchase_order_line"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "order_receipt_line" ADD CONSTRAINT "order_receipt_line_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "supplier_return" ADD CONSTRAINT "supplier_return_order_id_fkey" FOREIGN KEY ("order_id") REFERENCES "purchase_order"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "supplier_return_line" ADD CONSTRAINT "supplier_return_line_return_id_fkey" FOREIGN KEY ("return_id") REFERENCES "supplier_return"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "supplier_return_line" ADD CONSTRAINT "supplier_return_line_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "store_setting" ADD CONSTRAINT "store_setting_one_row" CHECK ("id" = 1);
ALTER TABLE "store_setting" ADD CONSTRAINT "store_setting_values" CHECK ("reckoning_currency" ~ '^[A-Z]{3}$' AND "manager_approves_above" >= 0);
INSERT INTO "store_setting" ("id") VALUES (1);
ALTER TABLE "currency_rate" ADD CONSTRAINT "currency_rate_values" CHECK ("currency" ~ '^[A-Z]{3}$' AND "rate" > 0);
ALTER TABLE "supplier" ADD CONSTRAINT "supplier_values" CHECK ("currency" ~ '^[A-Z]{3}$' AND "lead_days" BETWEEN 0 AND 730
  AND "minimum_order" >= 0 AND "order_weekday" BETWEEN 1 AND 7 AND "order_cost" >= 0);
ALTER TABLE "item_supply" ADD CONSTRAINT "item_supply_values" CHECK ("criticality" IN ('stops the skid', 'hampers the skid', 'can wait')
  AND "shelf_life_days" > 0 AND "review_days" BETWEEN 0 AND 366 AND "superseded_by_id" IS DISTINCT FROM "item_id" AND "strength_percent" BETWEEN 0 AND 100
  AND "content_amount" > 0 AND ("content_amount" IS NULL) = ("content_ucum" IS NULL));
ALTER TABLE "item_alternative" ADD CONSTRAINT "item_alternative_other" CHECK ("item_id" <> "alternative_id");
ALTER TABLE "item_hazard" ADD CONSTRAINT "item_hazard_values" CHECK ("from_percent" >= 0 AND "from_percent" < coalesce("below_percent", 101) AND "below_percent" <= 100
  AND "un_number" ~ '^[0-9]{4}$' AND "packing_group" IN ('I', 'II', 'III') AND "signal_word" IN ('', 'Danger', 'Warning'));
ALTER TABLE "bar_code" ADD CONSTRAINT "bar_code_quantity" CHECK ("quantity" > 0);
ALTER TABLE "offer" ADD CONSTRAINT "offer_values" CHECK ("units_per_purchase" > 0 AND "pack" > 0 AND "minimum_quantity" >= 0 AND "lead_days" BETWEEN 0 AND 730 AND "rank" BETWEEN 1 AND 99);
ALTER TABLE "offer_price" ADD CONSTRAINT "offer_price_price" CHECK ("price" >= 0);
ALTER TABLE "purchase_order" ADD CONSTRAINT "purchase_order_state" CHECK (CASE "state" WHEN 'draft' THEN "approved_at" IS NULL AND "sent_at" IS NULL AND "ended_at" IS NULL
  WHEN 'approved' THEN "approved_at" IS NOT NULL AND "sent_at" IS NULL AND "ended_at" IS NULL WHEN 'sent' THEN "sent_at" IS NOT NULL AND "rate" IS NOT NULL AND "ended_at" IS NULL
  WHEN 'closed' THEN "sent_at" IS NOT NULL AND "ended_at" IS NOT NULL WHEN 'cancelled' THEN "ended_at" IS NOT NULL AND "end_reason" <> '' ELSE false END);
ALTER TABLE "purchase_order_line" ADD CONSTRAINT "purchase_order_line_values" CHECK ("quantity" > 0 AND "units_per_purchase" > 0 AND "price" >= 0);
ALTER TABLE "order_receipt_line" ADD CONSTRAINT "order_receipt_line_values" CHECK ("quantity" > 0 AND "outcome" IN ('good', 'damaged', 'wrong')
  AND ("item_id" IS NULL OR "outcome" = 'wrong') AND ("outcome" <> 'good' OR "place_id" IS NOT NULL));
ALTER TABLE "supplier_return_line" ADD CONSTRAINT "supplier_return_line_values" CHECK ("quantity" > 0 AND "outcome" IN ('good', 'damaged', 'wrong'));

GRANT SELECT, INSERT, UPDATE, DELETE ON "store_setting", "currency_rate", "supplier", "item_supply", "item_alternative", "item_hazard", "bar_code", "offer", "offer_price", "purchase_order", "purchase_order_line", "purchase_order_change", "order_receipt", "order_receipt_line", "supplier_return", "supplier_return_line" TO skidkeep_app;
GRANT USAGE ON ALL SEQUENCES IN SCHEMA public TO skidkeep_app;
