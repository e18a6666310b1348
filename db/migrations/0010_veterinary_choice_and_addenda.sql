CREATE TABLE `addendum` (
	`seq` integer PRIMARY KEY NOT NULL,
	`id` text NOT NULL,
	`evaluation_id` text NOT NULL,
	`kind` text NOT NULL,
	`puppy_id` text,
	`check` text,
	`choice` text,
	`again_on` text,
	`text` text NOT NULL,
	`by` text NOT NULL,
	`at` integer NOT NULL,
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`puppy_id`) REFERENCES `puppy`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "addendum_kind" CHECK("addendum"."kind" in ('behaviour','veterinary','correction','home') and ("addendum"."kind" = 'veterinary') = ("addendum"."check" is not null) and ("addendum"."check" is null) = ("addendum"."choice" is null) and ("addendum"."puppy_id" is not null or "addendum"."kind" = 'correction')),
	CONSTRAINT "addendum_choice" CHECK(ifnull("addendum"."choice", 'stays') in ('cleared','again','stays') and (ifnull("addendum"."choice", '') = 'again') = ("addendum"."again_on" is not null))
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `addendum_id_unique` ON `addendum` (`id`);--> statement-breakpoint
CREATE INDEX `addendum_evaluation` ON `addendum` (`evaluation_id`);--> statement-breakpoint
PRAGMA foreign_keys=OFF;--> statement-breakpoint
CREATE TABLE `__new_clearance` (
	`seq` integer PRIMARY KEY NOT NULL,
	`id` text,
	`evaluation_id` text NOT NULL,
	`puppy_id` text NOT NULL,
	`check` text NOT NULL,
	`answer` text NOT NULL,
	`by` text NOT NULL,
	`choice` text,
	`again_on` text,
	`at` integer NOT NULL,
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`puppy_id`) REFERENCES `puppy`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "clearance_choice" CHECK(ifnull("__new_clearance"."choice", 'stays') in ('cleared','again','stays') and (ifnull("__new_clearance"."choice", '') = 'again') = ("__new_clearance"."again_on" is not null))
) STRICT;
--> statement-breakpoint
INSERT INTO `__new_clearance`("seq", "id", "evaluation_id", "puppy_id", "check", "answer", "by", "choice", "again_on", "at") SELECT rowid, NULL, "evaluation_id", "puppy_id", "check", "answer", "by", NULL, NULL, "at" FROM `clearance` ORDER BY rowid;--> statement-breakpoint
DROP TABLE `clearance`;--> statement-breakpoint
ALTER TABLE `__new_clearance` RENAME TO `clearance`;--> statement-breakpoint
PRAGMA foreign_keys=ON;--> statement-breakpoint
CREATE UNIQUE INDEX `clearance_id_unique` ON `clearance` (`id`);--> statement-breakpoint
CREATE INDEX `clearance_check` ON `clearance` (`evaluation_id`,`puppy_id`,`check`);--> statement-breakpoint
ALTER TABLE `home_link` ADD `contact` text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE `home_link` ADD `photo_id` text;
--> statement-breakpoint
CREATE TRIGGER `addendum_no_update` BEFORE UPDATE ON `addendum` BEGIN SELECT RAISE(ABORT, 'addendum is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `addendum_no_delete` BEFORE DELETE ON `addendum` BEGIN SELECT RAISE(ABORT, 'addendum is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `clearance_no_update` BEFORE UPDATE ON `clearance` BEGIN SELECT RAISE(ABORT, 'clearance is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `clearance_no_delete` BEFORE DELETE ON `clearance` BEGIN SELECT RAISE(ABORT, 'clearance is append-only'); END;
