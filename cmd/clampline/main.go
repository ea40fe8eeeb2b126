// Command clampline is the desktop program: it draws a building's one-line
// diagram and shows what surge voltage is left at every bus.
//
//	clampline [-demo | FILE]
//
// With -demo it opens the demo building. A FILE that does not exist yet is the name under which a new sheet will be
// saved.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	fyneapp "fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/driver/desktop"

	"clampline/app"
	"clampline/assets"
)

func main() {
	flag.Usage = func() {
		fmt.Fprintln(flag.CommandLine.Output(), "usage: clampline [-demo | FILE]\n\nOpens the sheet in FILE, the demo building, or an empty sheet.")
	}
	demo := flag.Bool("demo", false, "open the demo building")
	flag.Parse()
	if flag.NArg() > 1 || *demo && flag.NArg() > 0 {
		flag.Usage()
		os.Exit(2)
	}
	program := start(flag.Arg(0), *demo)
	program.Window().ShowAndRun()
}

// start makes the program and opens the file or the demo, where one is asked
// for.
func start(path string, demo bool) *app.App {
	a := fyneapp.NewWithID("clampline.editor")
	a.SetIcon(fyne.NewStaticResource("clampline.png", assets.Icon()))
	program := app.New(a, app.Options{Recovery: ownPlace("recovery"), Library: ownPlace("protectors.json"), Modifiers: heldKeys(a)})
	a.Lifecycle().SetOnEnteredForeground(program.Returned)
	a.Lifecycle().SetOnStarted(func() {
		program.KeepRecovery()
		switch {
		case demo:
			program.OpenDemo()
		case path != "":
			program.OpenPath(path)
		}
	})
	return program
}

// ownPlace returns where the program keeps something of its own, such as the
// recovery copies, or nothing where the system has no such place.
func ownPlace(name string) string {
	folder, err := os.UserConfigDir()
	if err != nil {
		return ""
	}
	return filepath.Join(folder, "clampline", name)
}

// heldKeys returns a function that asks the screen which modifiers are held.
func heldKeys(a fyne.App) func() fyne.KeyModifier {
	if driver, ok := a.Driver().(desktop.Driver); ok {
		return driver.CurrentKeyModifiers
	}
	return nil
}
