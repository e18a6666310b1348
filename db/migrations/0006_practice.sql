CREATE TABLE `practice_card` (
	`evaluation_id` text NOT NULL,
	`seat_id` text NOT NULL,
	`answers` text NOT NULL,
	`locked_at` integer NOT NULL,
	PRIMARY KEY(`evaluation_id`, `seat_id`),
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TRIGGER practice_card_no_update BEFORE UPDATE ON practice_card BEGIN SELECT raise(ABORT, 'append-only'); END;
--> statement-breakpoint
CREATE TRIGGER practice_card_no_delete BEFORE DELETE ON practice_card BEGIN SELECT raise(ABORT, 'append-only'); END;
