package library_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
	"clampline/diagram/library"
)

// random returns entries as a user's file could hold them.
func random(seed uint64) []library.Entry {
	var out []library.Entry
	for p := range diagramtest.Random(diagramtest.Rand(seed), 16).Protectors() {
		p.Plan, p.Bus, p.Offset, p.Installed = "", "", 0, diagram.Installed{}
		out = append(out, library.Entry{Protector: p, Own: true})
	}
	return out
}

func TestWriteThenReadGivesTheSame(t *testing.T) {
	for seed := range uint64(40) {
		want := random(seed)
		var out bytes.Buffer
		if err := library.Write(&out, want); err != nil {
			t.Fatal(err)
		}
		got, err := library.Read(&out)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("seed %d: (-want +got):\n%s", seed, diff)
		}
	}
}

func TestSaveThenLoadGivesTheSame(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a", "protectors.json")
	if got, err := library.Load(path); err != nil || len(got) != 0 {
		t.Fatalf("got %v, %v, want that a missing file has no entries", got, err)
	}
	want := random(3)
	if err := library.Save(path, want); err != nil {
		t.Fatal(err)
	}
	got, err := library.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestReadSaysWhatIsWrong(t *testing.T) {
	tests := []struct{ name, text, want string }{
		{"a sheet", `{"format": "clampline", "version": 1}`, "this is no Clampline library of protectors"},
		{"cut short", `{"format": "clampline library", "version": 1, "protectors": [{"id"`, "it was cut short"},
		{"unknown word", "{\"format\": \"clampline library\", \"version\": 1, \"protectors\": [\n  {\"id\": \"a\", \"rating\": \"SVR\"}]}", `line 2, column 25, protectors[0].rating (a): "SVR" is not known; use one of "VPR", "Up"`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := library.Read(strings.NewReader(test.text))
			if one := (*file.Error)(nil); !errors.As(err, &one) || !strings.Contains(err.Error(), test.want) || got != nil {
				t.Errorf("got %v and error %v, want one with %q", got, err, test.want)
			}
			path := filepath.Join(t.TempDir(), "protectors.json")
			if err := os.WriteFile(path, []byte(test.text), 0o600); err != nil {
				t.Fatal(err)
			}
			if _, err := library.Load(path); err == nil || !strings.Contains(err.Error(), path) || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %v, want one that names the file and %q", err, test.want)
			}
			if _, err := library.LoadOwn(path); err == nil {
				t.Error("LoadOwn took it")
			}
		})
	}
}

// What is written holds no place, whoever made the entry.
func TestWriteLeavesOutThePlace(t *testing.T) {
	var out bytes.Buffer
	p := diagram.Protector{ID: "a", Plan: "plan-1", Bus: "panel-1", Offset: 3}
	if err := library.Write(&out, []library.Entry{{Protector: p}}); err != nil {
		t.Fatal(err)
	}
	got, err := library.Read(&out)
	if err != nil || got[0].Protector != (diagram.Protector{ID: "a"}) || !got[0].Own {
		t.Errorf("got %+v, %v", got, err)
	}
}
