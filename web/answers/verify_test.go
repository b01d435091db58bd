package answers_test

import (
	"testing"

	"costrel/web/api"
	"costrel/web/api/apitest"
)

func TestPublishedChecks(t *testing.T) {
	s := serve(t, t.TempDir(), api.Options{})
	var rows struct{ Rows []map[string]any }
	apitest.Call(t, "GET", s.URL+"/api/verify", nil, &rows)
	if len(rows.Rows) < 300 {
		t.Errorf("%d published checks", len(rows.Rows))
	}
}
