package main

import (
	"io"

	"github.com/spf13/cobra"

	"clampline/analysis/mark"
)

const about = `clampcalc reads a sheet drawn with Clampline and tells, without a window, what is
wrong with it and what surge voltage is left at every bus, by the hand rule or solved as
a transient, draws it, and hands the solved circuit to a circuit simulator.

`

const statuses = `
Exit status:
    0  done
    1  check: at least one finding is an error; crosscheck: a number differs too much;
       survey, record: part of a filled-in table could not be read
    2  the command line is wrong
    3  a file could not be read or written, a circuit could not be solved, or the
       simulator is missing or failed
  130  interrupted
`

// version is that of FyneApp.toml; a test compares them.
const version = "0.1.0"

// rootCommand returns the command line of the program.
func rootCommand(out, errs io.Writer) *cobra.Command {
	root := &cobra.Command{
		Use:           "clampcalc",
		Short:         "surge voltages of a building, at a terminal",
		Long:          about + mark.Caution + "\n" + statuses,
		Version:       version,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          cobra.NoArgs,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SetOut(out)
	root.SetErr(errs)
	root.CompletionOptions.HiddenDefaultCmd = true
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return usageError("%w", err) })
	root.AddCommand(checkCommand(), levelsCommand(), compareCommand(), buysCommand(), faultCommand(), surgeCommand(), drawCommand(), surveyCommand(), phoneCommand(), recordCommand(), newCommand(), deckCommand(), crosscheckCommand(), sourcesTopic())
	root.AddCommand(handOverCommands()...)
	return root
}

// oneFile wants exactly one argument, the file.
func oneFile(cmd *cobra.Command, args []string) error {
	switch len(args) {
	case 1:
		return nil
	case 0:
		return usageError("%s: which file? for example: clampcalc %s building.clampline", cmd.Name(), cmd.Name())
	}
	return usageError("%s: takes one file, and there are %d arguments: %q", cmd.Name(), len(args), args)
}
