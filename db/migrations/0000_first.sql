CREATE TABLE `answer` (
	`round_id` text NOT NULL,
	`seat_id` text NOT NULL,
	`subject` text NOT NULL,
	`field` text NOT NULL,
	`counter` integer NOT NULL,
	`device_id` text NOT NULL,
	`entry_id` text NOT NULL,
	`body` text NOT NULL,
	`value` integer,
	PRIMARY KEY(`round_id`, `seat_id`, `subject`, `field`),
	FOREIGN KEY (`round_id`) REFERENCES `round`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`device_id`) REFERENCES `device`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`entry_id`) REFERENCES `entry`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "answer_value" CHECK("answer"."value" is null or "answer"."value" between -3 and 11)
) STRICT;
--> statement-breakpoint
CREATE TABLE `boot` (
	`at` integer NOT NULL
) STRICT;
--> statement-breakpoint
CREATE TABLE `device` (
	`id` text PRIMARY KEY NOT NULL,
	`token_hash` text NOT NULL,
	`owner` integer DEFAULT 0 NOT NULL,
	`seat_id` text,
	`created_at` integer NOT NULL,
	`revoked_at` integer,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `device_token_hash_unique` ON `device` (`token_hash`);--> statement-breakpoint
CREATE TABLE `entry` (
	`id` text PRIMARY KEY NOT NULL,
	`round_id` text NOT NULL,
	`seat_id` text NOT NULL,
	`device_id` text NOT NULL,
	`subject` text NOT NULL,
	`field` text NOT NULL,
	`counter` integer NOT NULL,
	`body` text NOT NULL,
	`value` integer,
	`status` text NOT NULL,
	`made_at` integer NOT NULL,
	`received_at` integer NOT NULL,
	FOREIGN KEY (`round_id`) REFERENCES `round`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`device_id`) REFERENCES `device`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "entry_value" CHECK("entry"."value" is null or "entry"."value" between -3 and 11)
) STRICT;
--> statement-breakpoint
CREATE INDEX `entry_register` ON `entry` (`round_id`,`seat_id`,`subject`,`field`);--> statement-breakpoint
CREATE TABLE `evaluation` (
	`id` text PRIMARY KEY NOT NULL,
	`litter_id` text NOT NULL,
	`sheet_id` text NOT NULL,
	`frozen_sheet` text,
	`name` text NOT NULL,
	`held_on` text NOT NULL,
	`medium` text NOT NULL,
	`call_link` text NOT NULL,
	`call_number` text NOT NULL,
	`table_note` text NOT NULL,
	`phase` text NOT NULL,
	`showing_order` text NOT NULL,
	`table_showing_id` text,
	`created_at` integer NOT NULL,
	`sealed_at` integer,
	FOREIGN KEY (`litter_id`) REFERENCES `litter`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`sheet_id`) REFERENCES `sheet`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "evaluation_phase" CHECK("evaluation"."phase" in ('preparing','scoring','deciding','sealed'))
) STRICT;
--> statement-breakpoint
CREATE TABLE `link` (
	`token_hash` text PRIMARY KEY NOT NULL,
	`kind` text NOT NULL,
	`seat_id` text,
	`created_at` integer NOT NULL,
	`used_at` integer,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TABLE `litter` (
	`id` text PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`breed` text NOT NULL,
	`dam` text NOT NULL,
	`sire` text NOT NULL,
	`whelped_on` text NOT NULL,
	`created_at` integer NOT NULL
) STRICT;
--> statement-breakpoint
CREATE TABLE `puppy` (
	`id` text PRIMARY KEY NOT NULL,
	`litter_id` text NOT NULL,
	`position` integer NOT NULL,
	`name` text NOT NULL,
	`sex` text NOT NULL,
	`collar` text NOT NULL,
	`second_mark` text NOT NULL,
	`chip_digits` text NOT NULL,
	FOREIGN KEY (`litter_id`) REFERENCES `litter`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "puppy_sex" CHECK("puppy"."sex" in ('dog','bitch'))
) STRICT;
--> statement-breakpoint
CREATE INDEX `puppy_litter` ON `puppy` (`litter_id`);--> statement-breakpoint
CREATE TABLE `purpose` (
	`evaluation_id` text NOT NULL,
	`key` text NOT NULL,
	`weights` text NOT NULL,
	PRIMARY KEY(`evaluation_id`, `key`),
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TABLE `round` (
	`id` text PRIMARY KEY NOT NULL,
	`evaluation_id` text NOT NULL,
	`position` integer NOT NULL,
	`occasion` text NOT NULL,
	`medium` text NOT NULL,
	`state` text NOT NULL,
	`opened_at` integer NOT NULL,
	`closed_at` integer,
	`revealed_at` integer,
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "round_state" CHECK("round"."state" in ('open','closed','revealed')),
	CONSTRAINT "round_revealed" CHECK(("round"."state" = 'revealed') = ("round"."revealed_at" is not null))
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `round_place` ON `round` (`evaluation_id`,`position`);--> statement-breakpoint
CREATE TABLE `seat` (
	`id` text PRIMARY KEY NOT NULL,
	`evaluation_id` text NOT NULL,
	`position` integer NOT NULL,
	`label` text NOT NULL,
	`kind` text NOT NULL,
	`leads` integer DEFAULT 0 NOT NULL,
	`picks` integer DEFAULT 0 NOT NULL,
	`interest` text NOT NULL,
	`owner` integer DEFAULT 0 NOT NULL,
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "seat_kind" CHECK("seat"."kind" in ('hands','live','photographs','none'))
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `seat_place` ON `seat` (`evaluation_id`,`position`);--> statement-breakpoint
CREATE TABLE `seat_round` (
	`round_id` text NOT NULL,
	`seat_id` text NOT NULL,
	`locked_at` integer,
	PRIMARY KEY(`round_id`, `seat_id`),
	FOREIGN KEY (`round_id`) REFERENCES `round`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TABLE `sheet` (
	`id` text PRIMARY KEY NOT NULL,
	`built_in` integer DEFAULT 0 NOT NULL,
	`body` text NOT NULL,
	`created_at` integer NOT NULL
) STRICT;
--> statement-breakpoint
CREATE TABLE `showing` (
	`id` text PRIMARY KEY NOT NULL,
	`round_id` text NOT NULL,
	`puppy_id` text NOT NULL,
	`place` integer NOT NULL,
	`repeat` integer DEFAULT 0 NOT NULL,
	FOREIGN KEY (`round_id`) REFERENCES `round`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`puppy_id`) REFERENCES `puppy`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `showing_place` ON `showing` (`round_id`,`place`);--> statement-breakpoint
CREATE TABLE `slot` (
	`id` text PRIMARY KEY NOT NULL,
	`evaluation_id` text NOT NULL,
	`position` integer NOT NULL,
	`taker` text NOT NULL,
	`seat_id` text,
	`purpose` text NOT NULL,
	`sex` text NOT NULL,
	`condition` text NOT NULL,
	`by_when` text NOT NULL,
	`if_fails` text NOT NULL,
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `slot_place` ON `slot` (`evaluation_id`,`position`);--> statement-breakpoint
CREATE TABLE `weight` (
	`puppy_id` text NOT NULL,
	`weighed_on` text NOT NULL,
	`grams` integer NOT NULL,
	PRIMARY KEY(`puppy_id`, `weighed_on`),
	FOREIGN KEY (`puppy_id`) REFERENCES `puppy`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "weight_grams" CHECK("weight"."grams" between 20 and 60000)
) STRICT;
--> statement-breakpoint
CREATE TABLE `withdrawal` (
	`evaluation_id` text NOT NULL,
	`puppy_id` text NOT NULL,
	`reason` text NOT NULL,
	`at` integer NOT NULL,
	PRIMARY KEY(`evaluation_id`, `puppy_id`),
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`puppy_id`) REFERENCES `puppy`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TABLE `audience_version` (
	`evaluation_id` text NOT NULL,
	`audience` text NOT NULL,
	`version` integer NOT NULL,
	PRIMARY KEY(`evaluation_id`, `audience`),
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TABLE `clearance` (
	`evaluation_id` text NOT NULL,
	`puppy_id` text NOT NULL,
	`check` text NOT NULL,
	`answer` text NOT NULL,
	`by` text NOT NULL,
	`at` integer NOT NULL,
	PRIMARY KEY(`evaluation_id`, `puppy_id`, `check`),
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`puppy_id`) REFERENCES `puppy`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TABLE `decision` (
	`id` text PRIMARY KEY NOT NULL,
	`seq` integer NOT NULL,
	`evaluation_id` text NOT NULL,
	`slot_id` text NOT NULL,
	`outcome` text NOT NULL,
	`puppy_id` text,
	`by` text NOT NULL,
	`reason` text NOT NULL,
	`preference` integer NOT NULL,
	`followed_panel` integer,
	`at` integer NOT NULL,
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`slot_id`) REFERENCES `slot`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`puppy_id`) REFERENCES `puppy`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "decision_outcome" CHECK("decision"."outcome" in ('picked','nobody','taken-back') and ("decision"."outcome" = 'picked') = ("decision"."puppy_id" is not null))
) STRICT;
--> statement-breakpoint
CREATE INDEX `decision_slot` ON `decision` (`slot_id`);--> statement-breakpoint
CREATE TABLE `discussion_note` (
	`id` text PRIMARY KEY NOT NULL,
	`evaluation_id` text NOT NULL,
	`seat_id` text NOT NULL,
	`slot_id` text,
	`puppy_id` text,
	`criterion` text,
	`text` text NOT NULL,
	`at` integer NOT NULL,
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`slot_id`) REFERENCES `slot`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`puppy_id`) REFERENCES `puppy`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TABLE `look` (
	`id` text PRIMARY KEY NOT NULL,
	`batch_id` text NOT NULL,
	`position` integer NOT NULL,
	`first_puppy_id` text NOT NULL,
	`second_puppy_id` text NOT NULL,
	`first_on_left` integer NOT NULL,
	`repeat` integer DEFAULT 0 NOT NULL,
	FOREIGN KEY (`batch_id`) REFERENCES `look_batch`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`first_puppy_id`) REFERENCES `puppy`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`second_puppy_id`) REFERENCES `puppy`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `look_place` ON `look` (`batch_id`,`position`);--> statement-breakpoint
CREATE TABLE `look_answer` (
	`id` text PRIMARY KEY NOT NULL,
	`seq` integer NOT NULL,
	`look_id` text NOT NULL,
	`seat_id` text NOT NULL,
	`device_id` text NOT NULL,
	`choice` text NOT NULL,
	`criterion` text,
	`made_at` integer NOT NULL,
	`received_at` integer NOT NULL,
	FOREIGN KEY (`look_id`) REFERENCES `look`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`device_id`) REFERENCES `device`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "look_choice" CHECK("look_answer"."choice" in ('first','second','tie'))
) STRICT;
--> statement-breakpoint
CREATE INDEX `look_answer_look` ON `look_answer` (`look_id`,`seat_id`);--> statement-breakpoint
CREATE TABLE `look_batch` (
	`id` text PRIMARY KEY NOT NULL,
	`evaluation_id` text NOT NULL,
	`slot_id` text NOT NULL,
	`position` integer NOT NULL,
	`state` text NOT NULL,
	`opened_at` integer NOT NULL,
	`revealed_at` integer,
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`slot_id`) REFERENCES `slot`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "look_batch_state" CHECK("look_batch"."state" in ('open','closed','revealed'))
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `look_batch_place` ON `look_batch` (`evaluation_id`,`position`);--> statement-breakpoint
CREATE TABLE `record` (
	`seq` integer PRIMARY KEY NOT NULL,
	`evaluation_id` text,
	`at` integer NOT NULL,
	`actor` text NOT NULL,
	`kind` text NOT NULL,
	`body` text NOT NULL,
	`previous_hash` text NOT NULL,
	`hash` text NOT NULL,
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TABLE `result` (
	`key` text PRIMARY KEY NOT NULL,
	`body` text NOT NULL,
	`computed_at` integer NOT NULL
) STRICT;
--> statement-breakpoint
CREATE TABLE `snapshot` (
	`id` text PRIMARY KEY NOT NULL,
	`round_id` text NOT NULL,
	`body` text NOT NULL,
	`revealed_at` integer NOT NULL,
	FOREIGN KEY (`round_id`) REFERENCES `round`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `snapshot_round_id_unique` ON `snapshot` (`round_id`);