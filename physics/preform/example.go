package preform

// Example returns the preform of a hand calculation, made up: 38.8 g, for the
// example of package bottle. Checks and tests of several packages hold their
// numbers against it; change nothing here.
func Example() Spec {
	return Spec{InnerDiameter: 0.0196, Wall: 0.0036, BodyLength: 0.0911, GateWall: 0.0028, FinishMass: 0.00374, Density: 1335}
}
