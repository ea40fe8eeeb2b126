package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/unit"
)

func newCommand() *cobra.Command {
	var system, title string
	var force bool
	cmd := &cobra.Command{
		Use:     "new FILE",
		Short:   "write a sheet with a supply and a main switchboard",
		Long:    "new writes a sheet to start from: a supply, a main switchboard and the feeder between them.\n\nSystems:\n  " + strings.Join(presetNames(), "\n  ") + "\n" + statuses,
		Example: "  clampcalc new building.clampline\n  clampcalc new building.clampline --system \"400/230 V TN-S\" --title \"Saltmarsh Clinic\"",
		Args:    oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			preset, err := findPreset(system)
			if err != nil {
				return err
			}
			if err := refuseToReplace(args[0], force); err != nil {
				return err
			}
			if err := saveSheet(cmd.ErrOrStderr(), args[0], starter(preset, title)); err != nil {
				return err
			}
			fmt.Fprintf(cmd.OutOrStdout(), "wrote %s, %s\n", args[0], preset.Name)
			return nil
		},
	}
	cmd.Flags().StringVar(&system, "system", "480Y/277 V", "the system of the supply")
	cmd.Flags().StringVar(&title, "title", "", "the title of the sheet")
	cmd.Flags().BoolVar(&force, "force", false, "replace a file that is there")
	return cmd
}

func presetNames() []string {
	var names []string
	for _, p := range diagram.Presets() {
		names = append(names, p.Name)
	}
	return names
}

// findPreset takes the name as it is listed, with or without its " V".
func findPreset(word string) (diagram.Preset, error) {
	plain := func(s string) string {
		return strings.ToLower(strings.Join(strings.Fields(strings.ReplaceAll(s, " V", " ")), " "))
	}
	for _, p := range diagram.Presets() {
		if plain(p.Name) == plain(word) {
			return p, nil
		}
	}
	return diagram.Preset{}, usageError("--system: %q is not known; use one of: %s", word, strings.Join(presetNames(), "; "))
}

// starter returns a sheet with a supply and a main switchboard.
func starter(preset diagram.Preset, title string) *diagram.Document {
	doc := diagram.New()
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		tx.SetInfo(diagram.Info{Title: title})
		convention := unit.NorthAmerican
		if preset.System.Earthing.IsIEC() {
			convention = unit.IEC
		}
		edit.Starter(tx, preset.System, convention)
		return nil
	})
	if err != nil {
		panic("clampcalc: the sheet to start from is not valid: " + err.Error())
	}
	return doc
}
