package design

// MovePlanes is [Set] for bottle.planes or one of them. Where the document does not
// say at which planes base, panel and shoulder part, those before the move are
// written down: where a bottle is cut to be weighed does not move its plastic.
func MovePlanes(text, path, value string) (string, error) {
	out, err := Set(text, path, value)
	if err != nil {
		return "", err
	}
	d, err := Load("", text)
	if err != nil {
		return out, nil // no design yet
	}
	b, targets := d.Design.Bottle, d.Design.Preform.Targets
	if len(b.Parts) > 0 || targets != nil && len(targets.Planes) > 0 {
		return out, nil
	}
	at, rows := "bottle.parts", "parts mm"
	if targets != nil {
		at, rows = "preform.section_targets.planes", "planes mm"
	}
	for _, z := range b.Planes {
		rows += "\n" + digits(z*1e3, 7)
	}
	return Set(out, at, rows)
}
