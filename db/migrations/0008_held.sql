ALTER TABLE `discussion_note` ADD `device_id` text REFERENCES device(id) ON DELETE restrict;--> statement-breakpoint
ALTER TABLE `discussion_note` ADD `round_id` text REFERENCES round(id) ON DELETE restrict;--> statement-breakpoint
ALTER TABLE `discussion_note` ADD `look_batch_id` text REFERENCES look_batch(id) ON DELETE restrict;--> statement-breakpoint
ALTER TABLE `photo_measurement` ADD `look_batch_id` text REFERENCES look_batch(id) ON DELETE restrict;--> statement-breakpoint
ALTER TABLE `photo_pointer` ADD `look_batch_id` text REFERENCES look_batch(id) ON DELETE restrict;--> statement-breakpoint
ALTER TABLE `pointer_removal` ADD `round_id` text REFERENCES round(id) ON DELETE restrict;--> statement-breakpoint
ALTER TABLE `pointer_removal` ADD `look_batch_id` text REFERENCES look_batch(id) ON DELETE restrict;--> statement-breakpoint
ALTER TABLE `practice_card` ADD `device_id` text REFERENCES device(id) ON DELETE restrict;--> statement-breakpoint
ALTER TABLE `raised_hand` ADD `device_id` text REFERENCES device(id) ON DELETE restrict;--> statement-breakpoint
ALTER TABLE `raised_hand` ADD `round_id` text REFERENCES round(id) ON DELETE restrict;--> statement-breakpoint
ALTER TABLE `raised_hand` ADD `look_batch_id` text REFERENCES look_batch(id) ON DELETE restrict;
--> statement-breakpoint
DROP TRIGGER `entry_no_update`;
--> statement-breakpoint
CREATE TRIGGER `entry_no_update` BEFORE UPDATE ON `entry`
WHEN NOT EXISTS (SELECT 1 FROM `removal` WHERE `removal`.`seat_id` = old.`seat_id` AND `removal`.`done` = 0)
  OR new.`id` <> old.`id` OR new.`round_id` <> old.`round_id` OR new.`seat_id` <> old.`seat_id` OR new.`device_id` <> old.`device_id` OR new.`subject` <> old.`subject`
  OR new.`field` <> old.`field` OR new.`counter` <> old.`counter` OR new.`value` IS NOT old.`value` OR new.`status` <> old.`status` OR new.`made_at` <> old.`made_at`
  OR new.`received_at` <> old.`received_at` OR new.`body` NOT IN (json_replace(old.`body`, '$.text', 'removed', '$.why', 'removed', '$.reason', 'removed'), json_replace(old.`body`, '$.why', 'removed', '$.reason', 'removed'))
BEGIN SELECT RAISE(ABORT, 'entry is append-only'); END;
--> statement-breakpoint
DROP TRIGGER `discussion_note_no_update`;
--> statement-breakpoint
CREATE TRIGGER `discussion_note_no_update` BEFORE UPDATE ON `discussion_note`
WHEN NOT EXISTS (SELECT 1 FROM `removal` WHERE `removal`.`seat_id` = old.`seat_id` AND `removal`.`done` = 0)
  OR new.`id` <> old.`id` OR new.`evaluation_id` <> old.`evaluation_id` OR new.`seat_id` <> old.`seat_id` OR new.`slot_id` IS NOT old.`slot_id` OR new.`puppy_id` IS NOT old.`puppy_id`
  OR new.`other_puppy_id` IS NOT old.`other_puppy_id` OR new.`criterion` IS NOT old.`criterion` OR new.`device_id` IS NOT old.`device_id` OR new.`round_id` IS NOT old.`round_id` OR new.`look_batch_id` IS NOT old.`look_batch_id`
  OR new.`at` <> old.`at` OR new.`text` <> 'removed'
BEGIN SELECT RAISE(ABORT, 'discussion_note is append-only'); END;
--> statement-breakpoint
DROP TRIGGER `photo_pointer_no_update`;
--> statement-breakpoint
CREATE TRIGGER `photo_pointer_no_update` BEFORE UPDATE ON `photo_pointer`
WHEN NOT EXISTS (SELECT 1 FROM `removal` WHERE `removal`.`seat_id` = old.`seat_id` AND `removal`.`done` = 0)
  OR new.`id` <> old.`id` OR new.`photo_id` <> old.`photo_id` OR new.`seat_id` <> old.`seat_id` OR new.`device_id` <> old.`device_id` OR new.`round_id` IS NOT old.`round_id` OR new.`look_batch_id` IS NOT old.`look_batch_id` OR new.`kind` <> old.`kind`
  OR new.`x` <> old.`x` OR new.`y` <> old.`y` OR new.`to_x` <> old.`to_x` OR new.`to_y` <> old.`to_y` OR new.`at` <> old.`at` OR new.`note` <> 'removed'
BEGIN SELECT RAISE(ABORT, 'photo_pointer is append-only'); END;
