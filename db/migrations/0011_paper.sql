CREATE TABLE `paper_card` (
	`seq` integer PRIMARY KEY NOT NULL,
	`id` text NOT NULL,
	`round_id` text NOT NULL,
	`seat_id` text NOT NULL,
	`showing_id` text NOT NULL,
	`device_id` text NOT NULL,
	`answers` integer NOT NULL,
	`at` integer NOT NULL,
	FOREIGN KEY (`round_id`) REFERENCES `round`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`showing_id`) REFERENCES `showing`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`device_id`) REFERENCES `device`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `paper_card_id_unique` ON `paper_card` (`id`);--> statement-breakpoint
CREATE INDEX `paper_card_round` ON `paper_card` (`round_id`);--> statement-breakpoint
ALTER TABLE `seat` ADD `paper` integer DEFAULT 0 NOT NULL;
--> statement-breakpoint
CREATE TRIGGER `paper_card_no_update` BEFORE UPDATE ON `paper_card` BEGIN SELECT RAISE(ABORT, 'paper_card is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `paper_card_no_delete` BEFORE DELETE ON `paper_card` BEGIN SELECT RAISE(ABORT, 'paper_card is append-only'); END;
