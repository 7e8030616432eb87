// Package recorddb keeps the shop's record, the logs of all jobs and the price book,
// in one SQLite file. It is the job.Store of the program.
//
//	db, err := recorddb.Open(ctx, "/home/me/.local/share/benchlead/record.db")
//	if err != nil {
//		return err // says what to do; errors.Is with job.ErrNewer, job.ErrLocked ...
//	}
//	defer db.Close()
//
// What Append and Create have acknowledged is on the disk: one transaction for
// each call, synced before it returns. Several programs may use one record.
// An older program refuses a newer record and leaves it as it is; a newer one
// backs an older record up beside it before it changes it.
//
// Beside the events stands a card of each job, written in the same transaction, by
// which jobs are listed, looked for and counted without reading their logs.
//
// The queries keep to SQL that SQLite and PostgreSQL both take ($1 placeholders,
// bigint, text); what is SQLite's own stands in open.go, migrate.go, backup.go and
// restore.go. The package may import diag/job, diag/record, diag/repair for what a
// price is, and the driver.
package recorddb
