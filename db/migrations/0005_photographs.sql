CREATE TABLE `breed_figure` (
	`litter_id` text NOT NULL,
	`ratio` text NOT NULL,
	`low` real NOT NULL,
	`high` real NOT NULL,
	`source` text NOT NULL,
	`confirmed_at` integer NOT NULL,
	PRIMARY KEY(`litter_id`, `ratio`),
	FOREIGN KEY (`litter_id`) REFERENCES `litter`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "breed_figure_order" CHECK("breed_figure"."low" > 0 and "breed_figure"."low" <= "breed_figure"."high")
) STRICT;
--> statement-breakpoint
CREATE TABLE `photo` (
	`id` text PRIMARY KEY NOT NULL,
	`evaluation_id` text NOT NULL,
	`puppy_id` text NOT NULL,
	`view` text NOT NULL,
	`kind` text NOT NULL,
	`taken_at` integer NOT NULL,
	`received_at` integer NOT NULL,
	`seat_id` text,
	`width` integer NOT NULL,
	`height` integer NOT NULL,
	`hash` text NOT NULL,
	`content_type` text NOT NULL,
	`file` text NOT NULL,
	`thumb` text,
	`placeholder` text NOT NULL,
	`fair` integer DEFAULT 1 NOT NULL,
	`keeper` integer DEFAULT 0 NOT NULL,
	`removed_at` integer,
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`puppy_id`) REFERENCES `puppy`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "photo_kind" CHECK("photo"."kind" in ('picture','clip'))
) STRICT;
--> statement-breakpoint
CREATE INDEX `photo_evaluation` ON `photo` (`evaluation_id`);--> statement-breakpoint
CREATE TABLE `photo_measurement` (
	`id` text PRIMARY KEY NOT NULL,
	`photo_id` text NOT NULL,
	`seat_id` text NOT NULL,
	`device_id` text NOT NULL,
	`round_id` text,
	`ratio` text NOT NULL,
	`body` text NOT NULL,
	`at` integer NOT NULL,
	FOREIGN KEY (`photo_id`) REFERENCES `photo`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`device_id`) REFERENCES `device`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`round_id`) REFERENCES `round`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE INDEX `photo_measurement_photo` ON `photo_measurement` (`photo_id`);--> statement-breakpoint
CREATE TABLE `photo_pointer` (
	`id` text PRIMARY KEY NOT NULL,
	`photo_id` text NOT NULL,
	`seat_id` text NOT NULL,
	`device_id` text NOT NULL,
	`round_id` text,
	`kind` text NOT NULL,
	`x` real NOT NULL,
	`y` real NOT NULL,
	`to_x` real NOT NULL,
	`to_y` real NOT NULL,
	`note` text NOT NULL,
	`at` integer NOT NULL,
	FOREIGN KEY (`photo_id`) REFERENCES `photo`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`device_id`) REFERENCES `device`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`round_id`) REFERENCES `round`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "photo_pointer_kind" CHECK("photo_pointer"."kind" in ('arrow','ring','line'))
) STRICT;
--> statement-breakpoint
CREATE INDEX `photo_pointer_photo` ON `photo_pointer` (`photo_id`);--> statement-breakpoint
CREATE TABLE `pointer_removal` (
	`pointer_id` text PRIMARY KEY NOT NULL,
	`at` integer NOT NULL,
	FOREIGN KEY (`pointer_id`) REFERENCES `photo_pointer`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TABLE `shot_list` (
	`evaluation_id` text PRIMARY KEY NOT NULL,
	`body` text NOT NULL,
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TRIGGER `photo_pointer_no_update` BEFORE UPDATE ON `photo_pointer`
WHEN NOT EXISTS (SELECT 1 FROM `removal` WHERE `removal`.`seat_id` = old.`seat_id` AND `removal`.`done` = 0)
  OR new.`id` <> old.`id` OR new.`photo_id` <> old.`photo_id` OR new.`seat_id` <> old.`seat_id` OR new.`device_id` <> old.`device_id` OR new.`round_id` IS NOT old.`round_id` OR new.`kind` <> old.`kind`
  OR new.`x` <> old.`x` OR new.`y` <> old.`y` OR new.`to_x` <> old.`to_x` OR new.`to_y` <> old.`to_y` OR new.`at` <> old.`at` OR new.`note` <> 'removed'
BEGIN SELECT RAISE(ABORT, 'photo_pointer is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `photo_pointer_no_delete` BEFORE DELETE ON `photo_pointer` BEGIN SELECT RAISE(ABORT, 'photo_pointer is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `photo_measurement_no_update` BEFORE UPDATE ON `photo_measurement` BEGIN SELECT RAISE(ABORT, 'photo_measurement is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `photo_measurement_no_delete` BEFORE DELETE ON `photo_measurement` BEGIN SELECT RAISE(ABORT, 'photo_measurement is append-only'); END;
