package main

import (
	"fmt"
	"io"
	"text/tabwriter"

	"costrel/project/report"
	"costrel/project/run"
	"costrel/unit"
)

// writeSheet prints the process sheet: card, sections, course, balances.
func writeSheet(w io.Writer, sheet []run.Sheet, sys unit.System, money string) error {
	for _, s := range sheet {
		fmt.Fprintf(w, "\n%s\n", s.Title)
		t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
		for _, r := range s.Rows {
			fmt.Fprintf(t, "  %s\t%s\n", r.Label, rowText(r, sys, money))
		}
		if err := t.Flush(); err != nil {
			return err
		}
	}
	return nil
}

func rowText(r run.SheetRow, sys unit.System, money string) string {
	switch {
	case r.Text != "":
		return r.Text
	case r.Kind == "":
		return fmt.Sprintf("%g", r.Value)
	case r.Unit != "" && sys == unit.EU:
		return unit.Format(r.Kind, r.Value, r.Unit, 4)
	}
	return report.Show(r.Kind, r.Value, sys, money)
}
