// Package store keeps designs as files in a folder, so that people, editors
// and version control see plain YAML, and the runs of these designs with their
// results in a hidden SQLite file beside them. It is the only place with SQL.
//
// A save never harms: the new text goes to a file of its own in the same
// folder, is flushed to the disk and takes the place of the old one in one
// step, so a crash leaves the old or the new text whole. A save names the
// version it was based on; when the file on disk is another one by then, it
// is refused with the text that stands there. Saves of all programs that use
// this package wait for each other.
//
// Runs are worth less than designs: the file that holds them may be deleted
// while no costrel serves the folder. A run is recorded when it starts, while
// it goes on and when it ends, so that one whose program died is known as
// crashed afterwards. Only the newest runs are kept, see [Runs.Begin].
package store
