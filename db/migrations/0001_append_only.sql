CREATE TRIGGER `entry_no_update` BEFORE UPDATE ON `entry` BEGIN SELECT RAISE(ABORT, 'entry is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `entry_no_delete` BEFORE DELETE ON `entry` BEGIN SELECT RAISE(ABORT, 'entry is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `snapshot_no_update` BEFORE UPDATE ON `snapshot` BEGIN SELECT RAISE(ABORT, 'snapshot is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `snapshot_no_delete` BEFORE DELETE ON `snapshot` BEGIN SELECT RAISE(ABORT, 'snapshot is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `record_no_update` BEFORE UPDATE ON `record` BEGIN SELECT RAISE(ABORT, 'record is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `record_no_delete` BEFORE DELETE ON `record` BEGIN SELECT RAISE(ABORT, 'record is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `look_answer_no_update` BEFORE UPDATE ON `look_answer` BEGIN SELECT RAISE(ABORT, 'look_answer is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `look_answer_no_delete` BEFORE DELETE ON `look_answer` BEGIN SELECT RAISE(ABORT, 'look_answer is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `discussion_note_no_update` BEFORE UPDATE ON `discussion_note` BEGIN SELECT RAISE(ABORT, 'discussion_note is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `discussion_note_no_delete` BEFORE DELETE ON `discussion_note` BEGIN SELECT RAISE(ABORT, 'discussion_note is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `decision_no_update` BEFORE UPDATE ON `decision` BEGIN SELECT RAISE(ABORT, 'decision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `decision_no_delete` BEFORE DELETE ON `decision` BEGIN SELECT RAISE(ABORT, 'decision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `round_stays_revealed` BEFORE UPDATE ON `round` WHEN old.`state` = 'revealed' AND new.`state` <> 'revealed' BEGIN SELECT RAISE(ABORT, 'a revealed round stays revealed'); END;
