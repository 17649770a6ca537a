-- Schema 3: what the darkroom needs to know: solutions by area and age, runs step by step, faults, strips
-- of steps, films and formats of the user's own.
--
-- Only projections change. What stands in the new columns and tables is made from the entries, which is
-- done when a file that has some is opened next: projections = 'to be made' in settings asks for it.

INSERT OR REPLACE INTO settings (name, value)
    SELECT 'projections', 'to be made' WHERE EXISTS (SELECT 1 FROM entry);
