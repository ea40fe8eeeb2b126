package main

import (
	"context"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/assets"
	"clampline/diagram/file"
)

// printed runs a command and reads the JSON that it prints.
func printed(t *testing.T, into any, args ...string) {
	t.Helper()
	var out, errs strings.Builder
	if status := run(context.Background(), args, &out, &errs); status != 0 {
		t.Fatalf("%v: status %d, %s", args, status, errs.String())
	}
	if err := json.Unmarshal([]byte(out.String()), into); err != nil {
		t.Fatal(err)
	}
}

// The totals of a plan are the verdicts that levels prints of it, counted, those of
// critical loads apart, and each cell has the figures of levels.
func TestTotalsAreThoseOfLevels(t *testing.T) {
	bases := []string{"hand", "transient"}
	if testing.Short() {
		bases = bases[:1]
	}
	for _, demo := range assets.Demos() {
		path := t.TempDir() + "/demo.clampline"
		if err := os.WriteFile(path, []byte(demo.Text), 0o600); err != nil {
			t.Fatal(err)
		}
		doc, err := file.Load(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, basis := range bases {
			var got struct {
				Plans []map[string]any
				Rows  []struct {
					ID       string
					Critical bool
					Plans    []map[string]any
				}
			}
			printed(t, &got, "compare", path, "--basis", basis, "--json")
			for at, plan := range doc.Plans() {
				var levels []map[string]any
				printed(t, &levels, "levels", path, "--basis", basis, "--plan", string(plan.ID), "--json")
				all, critical := counts(), counts()
				if len(got.Rows) != len(levels) {
					t.Fatalf("%s, %s: %d rows, and levels has %d", demo.Title, plan.Name, len(got.Rows), len(levels))
				}
				for i, level := range levels {
					part, row := strings.ToLower(level["verdict"].(string)), got.Rows[i]
					all[part] = all[part].(float64) + 1
					if row.Critical {
						critical[part] = critical[part].(float64) + 1
					}
					for _, name := range []string{"mode", "volts", "percent", "withstand", "verdict", "basis", "reason", "why"} {
						if row.ID != level["id"] || row.Plans[at][name] != level[name] {
							t.Errorf("%s, %s, %s %s: %v, and levels has %v", demo.Title, plan.Name, row.ID, name, row.Plans[at][name], level[name])
						}
					}
				}
				for verdict, n := range all {
					if got.Plans[at][verdict] != n {
						t.Errorf("%s, %s, %s: %v %s, and levels has %v", demo.Title, basis, plan.Name, got.Plans[at][verdict], verdict, n)
					}
				}
				if diff := cmp.Diff(critical, got.Plans[at]["critical"]); diff != "" {
					t.Errorf("%s, %s, %s (-levels +compare):\n%s", demo.Title, basis, plan.Name, diff)
				}
			}
		}
	}
}

func counts() map[string]any {
	return map[string]any{"held": 0.0, "tight": 0.0, "exceeded": 0.0, "unreached": 0.0, "unknown": 0.0}
}
