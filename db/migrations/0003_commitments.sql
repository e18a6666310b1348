CREATE TABLE `commitment` (
	`id` text PRIMARY KEY NOT NULL,
	`round_id` text NOT NULL,
	`seat_id` text NOT NULL,
	`nonce` text NOT NULL,
	`hash` text NOT NULL,
	`made_by` text NOT NULL,
	`made_at` integer NOT NULL,
	`voided_at` integer,
	FOREIGN KEY (`round_id`) REFERENCES `round`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "commitment_made_by" CHECK("commitment"."made_by" in ('device','server'))
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `commitment_standing` ON `commitment` (`round_id`,`seat_id`) WHERE "commitment"."voided_at" is null;
--> statement-breakpoint
CREATE TRIGGER `commitment_no_delete` BEFORE DELETE ON `commitment` BEGIN SELECT RAISE(ABORT, 'commitment is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `commitment_only_voided` BEFORE UPDATE ON `commitment`
WHEN old.`voided_at` IS NOT NULL OR new.`voided_at` IS NULL OR new.`id` <> old.`id` OR new.`round_id` <> old.`round_id` OR new.`seat_id` <> old.`seat_id`
  OR new.`nonce` <> old.`nonce` OR new.`hash` <> old.`hash` OR new.`made_by` <> old.`made_by` OR new.`made_at` <> old.`made_at`
BEGIN SELECT RAISE(ABORT, 'a commitment is voided once and changes in nothing else'); END;
