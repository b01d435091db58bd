package api

import (
	"runtime"
	"time"

	"costrel/project/design"
)

// maxBody is the largest request body [bytes].
const maxBody = design.MaxBytes + 64<<10

// limits bound what the clients of one server can ask of the machine.
type limits struct {
	body       time.Duration // for the body of a request to come in
	send       time.Duration // for a part of a stream to go out
	checks     int           // previews and comparisons at a time
	waiting    int           // more of them that wait
	turn       time.Duration // that they wait
	runs       int           // full runs at a time
	waitingRun int           // more of them that wait
	run        time.Duration // a full run may take from its turn on
	abandoned  time.Duration // a run that nobody listens to goes on
	compare    time.Duration // a comparison of two full runs may take
	retry      time.Duration // after which a refused run is worth trying again
}

// defaultLimits suit a few engineers on one machine. Full runs leave room for
// previews; a preview takes some hundredths of a second, a full run seconds.
func defaultLimits() limits {
	cores := runtime.GOMAXPROCS(0)
	return limits{
		body: 10 * time.Second, send: time.Minute,
		checks: max(cores, 4), waiting: 128, turn: 20 * time.Second,
		runs: max(cores/2, 2), waitingRun: 16, run: 10 * time.Minute,
		abandoned: 10 * time.Second, compare: 50 * time.Second, retry: 10 * time.Second,
	}
}
