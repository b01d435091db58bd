// Package unit holds quantities and units: parse, convert, print.
//
// A bare float64 in costrel is SI. Where one unit hides two meanings the
// meanings are different types: [GaugePressure] and [AbsPressure], and
// [Temperature] (a point on the scale) and [TemperatureDiff].
package unit
