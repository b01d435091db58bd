package api

import (
	"net/http"
	"os"
	"strings"
	"testing"

	"costrel/project/design"
)

func opened(t *testing.T, url string) string {
	t.Helper()
	var o Opened
	call(t, "GET", url+"/api/designs/sorrel-lime.yaml", nil, &o)
	return o.Text
}

func TestProfile(t *testing.T) {
	t.Parallel()
	s, _ := server(t)
	drawing, err := os.ReadFile("../../examples/outlines/sorrel-lime.dxf")
	if err != nil {
		t.Fatal(err)
	}
	ask := func(file string, content []byte, more map[string]any) Imported {
		t.Helper()
		body := map[string]any{"text": opened(t, s.URL), "file": file, "content": content}
		for k, v := range more {
			body[k] = v
		}
		var out Imported
		if r := call(t, "POST", s.URL+"/api/profile", body, &out); r.StatusCode != http.StatusOK {
			t.Fatalf("%s: %s", file, r.Status)
		}
		return out
	}
	out := ask("a.dxf", drawing, nil)
	if len(out.Faults)+len(out.Problems) > 0 || len(out.Outline) < 100 || len(out.Table.Rows) < 20 || !strings.Contains(out.Text, "curve") {
		t.Errorf("%+v", out)
	}
	if _, err := design.Load("", out.Text); err != nil {
		t.Error(err)
	}
	if got := strings.Join(out.Layers, " "); got != "centre outline" {
		t.Errorf("layers %q", got)
	}
	for name, c := range map[string]struct {
		file    string
		content string
		more    map[string]any
		want    string
	}{
		"a fault":         {"a.csv", "z [mm],r [mm]\n0,x\n", nil, "no number"},
		"a length":        {"a.csv", "z [mm],r [mm]\n0,25\n100,30\n", map[string]any{"tolerance": "3"}, "the tolerance"},
		"a layer":         {"a.dxf", string(drawing), map[string]any{"layer": "none"}, "no line"},
		"a height of top": {"a.dxf", string(drawing), map[string]any{"top": "1 m"}, "is to end at"},
	} {
		out := ask(c.file, []byte(c.content), c.more)
		if out.Text != "" || len(out.Faults) == 0 || !strings.Contains(out.Faults[0].Message, c.want) {
			t.Errorf("%s: %+v", name, out.Faults)
		}
	}
	// An outline that makes no bottle is shown with what is wrong.
	out = ask("a.csv", []byte("z [mm],r [mm]\n0,20\n100,30\n200,5\n"), nil)
	if len(out.Problems) == 0 || len(out.Outline) == 0 {
		t.Errorf("%+v", out)
	}
	if r := call(t, "POST", s.URL+"/api/profile", map[string]any{"text": "x: 1\n", "file": "a.csv", "content": []byte("z,r")}, nil); r.StatusCode != http.StatusUnprocessableEntity {
		t.Errorf("an unusable design: %s", r.Status)
	}
	big := map[string]any{"text": opened(t, s.URL), "file": "a.csv", "content": make([]byte, 10<<20)}
	if r := call(t, "POST", s.URL+"/api/profile", big, nil); r.StatusCode != http.StatusRequestEntityTooLarge {
		t.Errorf("10 MB: %s", r.Status)
	}
}

func TestTable(t *testing.T) {
	t.Parallel()
	s, _ := server(t)
	ask := func(path, pasted string) (out TableRead) {
		t.Helper()
		body := map[string]any{"text": opened(t, s.URL), "path": path, "pasted": pasted}
		if r := call(t, "POST", s.URL+"/api/table", body, &out); r.StatusCode != http.StatusOK {
			t.Fatalf("%s: %s", path, r.Status)
		}
		return out
	}
	out := ask("oven.zones", "zone\tpower [%]\n1\t61,5\n2\t50\n")
	if out.Value != "zone\tpower %\n1\t61.5\n2\t50" || len(out.Problems) > 0 {
		t.Errorf("%+v", out)
	}
	var c Checked
	call(t, "POST", s.URL+"/api/check", map[string]any{"text": opened(t, s.URL), "edits": []map[string]string{{"path": "oven.zones", "text": out.Value}}}, &c)
	if c.Board == nil || !strings.Contains(c.Text, "- [1, 61.5]") || len(c.Problems) > 0 && c.Problems[0].Path == "oven.zones" {
		t.Errorf("the edit: %+v", c.Problems)
	}
	if out := ask("oven.zones", "zone\tpower [%]\n1\t610\n"); out.Value != "" || len(out.Faults) != 1 || out.Faults[0].Row != 0 || out.Faults[0].Column != 1 {
		t.Errorf("%+v", out)
	}
	if out := ask("bottle.planes", "planes [mm]\n60\n900\n"); len(out.Faults) != 1 {
		t.Errorf("%+v", out)
	}
	if out := ask("bottle.planes", "planes [mm]\n190\n60\n"); len(out.Problems) != 1 || out.Problems[0].Path != "bottle.planes[1]" {
		t.Errorf("%+v", out.Problems)
	}
	if r := call(t, "POST", s.URL+"/api/table", map[string]any{"text": opened(t, s.URL), "path": "preform.wall", "pasted": "1"}, nil); r.StatusCode != http.StatusUnprocessableEntity {
		t.Errorf("no table: %s", r.Status)
	}
}

func TestReshape(t *testing.T) {
	s, _ := server(t)
	ask := func(path, value string) (out Reshaped) {
		t.Helper()
		body := map[string]any{"text": opened(t, s.URL), "path": path, "value": value}
		if r := call(t, "POST", s.URL+"/api/reshape", body, &out); r.StatusCode != http.StatusOK {
			t.Fatalf("%s: %s", path, r.Status)
		}
		return out
	}
	if out := ask("bottle.height", "310 mm"); !strings.Contains(out.Text, "height: 310 mm") || !strings.Contains(out.Text, "- [293, 13.1]") {
		t.Errorf("%+v", out)
	}
	if out := ask("bottle.height", "60 mm"); out.Text != "" || len(out.Problems) == 0 {
		t.Errorf("%+v", out)
	}
}
