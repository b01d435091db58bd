package design

// MovePlanes is [Set] for bottle.planes or one of them. Section targets that
// name no planes of their own keep those at which they held before: where a
// bottle is cut to be weighed does not move its plastic.
func MovePlanes(text, path, value string) (string, error) {
	out, err := Set(text, path, value)
	if err != nil {
		return "", err
	}
	before, err := Load("", text)
	if err != nil {
		return out, nil // a design that holds nothing yet has nothing to keep
	}
	targets := before.Design.Preform.Targets
	if targets == nil || len(targets.Planes) > 0 {
		return out, nil
	}
	rows := "planes mm"
	for _, z := range before.Design.Bottle.Planes {
		rows += "\n" + digits(z*1e3, 7)
	}
	return Set(out, "preform.section_targets.planes", rows)
}
