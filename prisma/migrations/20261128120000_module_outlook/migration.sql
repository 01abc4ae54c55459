-- Contact with free chlorine that the module maker states, and the limits that an outlook of several is made from
ALTER TABLE "integrity_setup" ADD COLUMN "oxidant_limit_ppm_h" DOUBLE PRECISION;
ALTER TABLE "outlook" ADD COLUMN "limits" JSONB NOT NULL DEFAULT '[]';
