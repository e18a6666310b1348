CREATE TABLE `device_request` (
	`id` text PRIMARY KEY NOT NULL,
	`token_hash` text NOT NULL,
	`seat_id` text,
	`digits` text NOT NULL,
	`asked_at` integer NOT NULL,
	`expires_at` integer NOT NULL,
	`answered_at` integer,
	`approved` integer,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `device_request_token_hash_unique` ON `device_request` (`token_hash`);--> statement-breakpoint
CREATE TABLE `home_link` (
	`token_hash` text PRIMARY KEY NOT NULL,
	`evaluation_id` text NOT NULL,
	`puppy_id` text NOT NULL,
	`created_at` integer NOT NULL,
	`ended_at` integer,
	FOREIGN KEY (`evaluation_id`) REFERENCES `evaluation`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`puppy_id`) REFERENCES `puppy`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TABLE `passphrase` (
	`id` integer PRIMARY KEY NOT NULL,
	`kept` text NOT NULL,
	`set_at` integer NOT NULL,
	CONSTRAINT "passphrase_one" CHECK("passphrase"."id" = 1)
) STRICT;
--> statement-breakpoint
CREATE TABLE `recovery_code` (
	`code_hash` text PRIMARY KEY NOT NULL,
	`created_at` integer NOT NULL,
	`used_at` integer
) STRICT;
--> statement-breakpoint
CREATE TABLE `removal` (
	`seat_id` text PRIMARY KEY NOT NULL,
	`at` integer NOT NULL,
	`done` integer DEFAULT 0 NOT NULL,
	FOREIGN KEY (`seat_id`) REFERENCES `seat`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
ALTER TABLE `device` ADD `generation` integer DEFAULT 1 NOT NULL;--> statement-breakpoint
ALTER TABLE `device` ADD `came_by` text DEFAULT 'link' NOT NULL;--> statement-breakpoint
ALTER TABLE `device` ADD `seen_at` integer DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE `link` ADD `expires_at` integer;--> statement-breakpoint
ALTER TABLE `seat` ADD `organises` integer DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE `seat` ADD `reads` integer DEFAULT 0 NOT NULL;
--> statement-breakpoint
UPDATE `device` SET `generation` = (SELECT count(*) FROM `device` AS `earlier` WHERE `earlier`.`seat_id` = `device`.`seat_id` AND (`earlier`.`created_at` < `device`.`created_at` OR (`earlier`.`created_at` = `device`.`created_at` AND `earlier`.`rowid` <= `device`.`rowid`)))
WHERE `seat_id` IS NOT NULL;
--> statement-breakpoint
CREATE TRIGGER `removal_no_delete` BEFORE DELETE ON `removal` BEGIN SELECT RAISE(ABORT, 'removal is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `removal_only_done` BEFORE UPDATE ON `removal` WHEN old.`done` <> 0 OR new.`done` <> 1 OR new.`seat_id` <> old.`seat_id` OR new.`at` <> old.`at`
BEGIN SELECT RAISE(ABORT, 'a removal is done once and changes in nothing else'); END;
--> statement-breakpoint
DROP TRIGGER `entry_no_update`;
--> statement-breakpoint
CREATE TRIGGER `entry_no_update` BEFORE UPDATE ON `entry`
WHEN NOT EXISTS (SELECT 1 FROM `removal` WHERE `removal`.`seat_id` = old.`seat_id` AND `removal`.`done` = 0)
  OR new.`id` <> old.`id` OR new.`round_id` <> old.`round_id` OR new.`seat_id` <> old.`seat_id` OR new.`device_id` <> old.`device_id` OR new.`subject` <> old.`subject`
  OR new.`field` <> old.`field` OR new.`counter` <> old.`counter` OR new.`value` IS NOT old.`value` OR new.`status` <> old.`status` OR new.`made_at` <> old.`made_at`
  OR new.`received_at` <> old.`received_at` OR new.`body` <> json_replace(old.`body`, '$.text', 'removed', '$.why', 'removed', '$.reason', 'removed')
BEGIN SELECT RAISE(ABORT, 'entry is append-only'); END;
--> statement-breakpoint
DROP TRIGGER `snapshot_no_update`;
--> statement-breakpoint
CREATE TRIGGER `snapshot_no_update` BEFORE UPDATE ON `snapshot`
WHEN NOT EXISTS (SELECT 1 FROM `removal` JOIN `seat` ON `seat`.`id` = `removal`.`seat_id` JOIN `round` ON `round`.`evaluation_id` = `seat`.`evaluation_id` WHERE `round`.`id` = old.`round_id` AND `removal`.`done` = 0)
  OR new.`id` <> old.`id` OR new.`round_id` <> old.`round_id` OR new.`revealed_at` <> old.`revealed_at`
BEGIN SELECT RAISE(ABORT, 'snapshot is append-only'); END;
--> statement-breakpoint
DROP TRIGGER `discussion_note_no_update`;
--> statement-breakpoint
CREATE TRIGGER `discussion_note_no_update` BEFORE UPDATE ON `discussion_note`
WHEN NOT EXISTS (SELECT 1 FROM `removal` WHERE `removal`.`seat_id` = old.`seat_id` AND `removal`.`done` = 0)
  OR new.`id` <> old.`id` OR new.`evaluation_id` <> old.`evaluation_id` OR new.`seat_id` <> old.`seat_id` OR new.`slot_id` IS NOT old.`slot_id` OR new.`puppy_id` IS NOT old.`puppy_id`
  OR new.`other_puppy_id` IS NOT old.`other_puppy_id` OR new.`criterion` IS NOT old.`criterion` OR new.`at` <> old.`at` OR new.`text` <> 'removed'
BEGIN SELECT RAISE(ABORT, 'discussion_note is append-only'); END;
--> statement-breakpoint
DROP TRIGGER `decision_no_update`;
--> statement-breakpoint
CREATE TRIGGER `decision_no_update` BEFORE UPDATE ON `decision`
WHEN NOT EXISTS (SELECT 1 FROM `removal` JOIN `seat` ON `seat`.`id` = `removal`.`seat_id` WHERE `seat`.`evaluation_id` = old.`evaluation_id` AND `removal`.`done` = 0)
  OR new.`id` <> old.`id` OR new.`seq` <> old.`seq` OR new.`evaluation_id` <> old.`evaluation_id` OR new.`slot_id` <> old.`slot_id` OR new.`outcome` <> old.`outcome`
  OR new.`puppy_id` IS NOT old.`puppy_id` OR new.`preference` <> old.`preference` OR new.`followed_panel` IS NOT old.`followed_panel` OR new.`at` <> old.`at`
BEGIN SELECT RAISE(ABORT, 'decision is append-only'); END;
