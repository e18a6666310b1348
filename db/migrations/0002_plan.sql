CREATE TABLE `confirmation` (
	`evaluation_id` text NOT NULL,
	`seat_id` text NOT NULL,
	`wording` text NOT NULL,
	`at` integer NOT NULL,
	PRIMARY KEY(`evaluation_id`, `seat_id`),
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TABLE `plan` (
	`evaluation_id` text PRIMARY KEY NOT NULL,
	`kind` text NOT NULL,
	`learner_seat_id` text,
	`discussion` text NOT NULL,
	`silent_repeat` integer NOT NULL,
	`hours_since_meal` real,
	`look_batches` integer NOT NULL,
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`learner_seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "plan_kind" CHECK("plan"."kind" in ('panel','lesson')),
	CONSTRAINT "plan_discussion" CHECK("plan"."discussion" in ('roles','anonymous')),
	CONSTRAINT "plan_look_batches" CHECK("plan"."look_batches" between 1 and 6)
) STRICT;
--> statement-breakpoint
CREATE TABLE `raised_hand` (
	`evaluation_id` text NOT NULL,
	`seat_id` text NOT NULL,
	`at` integer NOT NULL,
	PRIMARY KEY(`evaluation_id`, `seat_id`),
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TABLE `round_cell` (
	`round_id` text NOT NULL,
	`puppy_id` text NOT NULL,
	`criterion` text NOT NULL,
	PRIMARY KEY(`round_id`, `puppy_id`, `criterion`),
	FOREIGN KEY (`round_id`) REFERENCES `round`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`puppy_id`) REFERENCES `puppy`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
ALTER TABLE `discussion_note` ADD `other_puppy_id` text REFERENCES puppy(id) ON DELETE restrict;--> statement-breakpoint
ALTER TABLE `look_batch` ADD `medium` text DEFAULT 'table' NOT NULL;