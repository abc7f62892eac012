// Package bench is the bench as a page in the hand, without the page: one function over the
// border, bytes in and bytes out, so that whoever shows it makes no sum and no sentence.
//
// The page keeps the job's files, as bytes by their names; the core keeps none. A request
// names an Action; the response holds what was said, the files that changed, and where the
// job stands. Every rounding and every word is made here, by the packages that the command
// uses: a line that is typed is obeyed by the session that evendrop jot has.
//
// The core has one job open at a time. It can be thrown away at any moment: Open with the
// files that are kept goes on from there, but for what undo would take back, which is then
// the last reading. A panic is caught, and is an answer; the job is closed then.
package bench
