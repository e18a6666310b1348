CREATE TABLE `imported` (
	`evaluation_id` text PRIMARY KEY NOT NULL,
	`at` integer NOT NULL,
	`written_at` integer NOT NULL,
	`head_seq` integer NOT NULL,
	`head_hash` text NOT NULL,
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TABLE `imported_line` (
	`evaluation_id` text NOT NULL,
	`seq` integer NOT NULL,
	`at` integer NOT NULL,
	`actor` text NOT NULL,
	`kind` text NOT NULL,
	`body` text NOT NULL,
	`previous_hash` text NOT NULL,
	`hash` text NOT NULL,
	PRIMARY KEY(`evaluation_id`, `seq`),
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TRIGGER `imported_no_update` BEFORE UPDATE ON `imported` BEGIN SELECT RAISE(ABORT, 'imported is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `imported_no_delete` BEFORE DELETE ON `imported` BEGIN SELECT RAISE(ABORT, 'imported is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `imported_line_no_update` BEFORE UPDATE ON `imported_line` BEGIN SELECT RAISE(ABORT, 'imported_line is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `imported_line_no_delete` BEFORE DELETE ON `imported_line` BEGIN SELECT RAISE(ABORT, 'imported_line is append-only'); END;
