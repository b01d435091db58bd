// Package climate holds the storage lane of a pack: temperature, humidity and
// altitude over time, as data.
//
// A [Lane] is what a designer writes: segments with a start and a duration,
// each constant, with a daily and a seasonal cycle, or in steps such as a
// logger records. [Lane.Course] checks it once and returns a [Course], which
// answers cheaply at any time, knows its extremes and its mean kinetic
// temperature, and lists the times at which it jumps. [Pressure] is the
// standard atmosphere.
package climate
