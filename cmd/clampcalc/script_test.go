package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"clampcalc": main})
}

// TestScripts runs the program as a person does; each script says what it
// shows.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "../../testdata/scripts",
		UpdateScripts:       os.Getenv("UPDATE") != "",
		RequireExplicitExec: true,
		Setup: func(env *testscript.Env) error {
			program, err := exec.LookPath("clampcalc")
			if err != nil {
				return err
			}
			env.Setenv("PROGRAM", filepath.Dir(program)) // a path on which nothing else is
			return os.CopyFS(env.WorkDir+"/demo", os.DirFS("../../assets/demo"))
		},
	})
}
