// Package ui holds the built page of the workbench.
package ui

import (
	"embed"
	"io/fs"
)

//go:embed all:bundle
var bundle embed.FS

// Files returns the built page, index.html at its root. Before the first
// build the folder holds only a marker file; [Built] tells.
func Files() fs.FS {
	files, err := fs.Sub(bundle, "bundle")
	if err != nil {
		// The folder is embedded above; a failure here is a broken binary.
		panic("ui: embedded folder bundle is missing: " + err.Error())
	}
	return files
}

// Built reports whether the page was built before the program was.
func Built() bool {
	_, err := fs.Stat(Files(), "index.html")
	return err == nil
}
