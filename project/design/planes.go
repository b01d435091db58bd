package design

// MovePlanes is [Set] for bottle.planes or one of them. Section targets that
// name no planes of their own keep those at which they held before: where a
// bottle is cut to be weighed does not move its plastic.
func MovePlanes(text, path, value string) (string, error) {
	out, err := Set(text, path, value)
	if err != nil {
		return "", err
	}
	held := planesHeld(text)
	if held == nil {
		return out, nil
	}
	rows := "planes mm"
	for _, z := range held {
		rows += "\n" + digits(z*1e3, 7)
	}
	return Set(out, "preform.section_targets.planes", rows)
}

// planesHeld gives the planes (m) of the bottle at which the section targets
// of text hold, nil when the targets name their own or text is no design yet.
func planesHeld(text string) []float64 {
	d, err := Load("", text)
	if err != nil || d.Design.Preform.Targets == nil || len(d.Design.Preform.Targets.Planes) > 0 {
		return nil
	}
	return d.Design.Bottle.Planes
}
