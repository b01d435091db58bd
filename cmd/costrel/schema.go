package main

import (
	"costrel/project/design"
)

type schemaCmd struct{}

// Run prints the JSON Schema of the design document.
func (c *schemaCmd) Run(e *env) error {
	b, err := design.JSONSchema()
	if err != nil {
		return err
	}
	_, err = e.out.Write(append(b, '\n'))
	return err
}
