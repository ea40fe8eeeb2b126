package main

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
)

// setUp makes sure that the machine has what n takes: it installs it where it
// knows how and may, and otherwise says what is to be done.
func (w *workshop) setUp(ctx context.Context, n need) error {
	if m, ok := managerOf(w.system.family); ok {
		if err := w.setUpPackages(ctx, m, n); err != nil {
			return err
		}
		w.setUpWanted(ctx, m, n)
		return nil
	}
	lacks := w.lacking(ctx, n)
	if len(lacks) > 0 {
		return fmt.Errorf("%s lacks %s\n%s", w.system.name, strings.Join(lacks, ", "), advice(w.system.family))
	}
	w.say("system: %s has what is needed", w.system.name)
	return nil
}

func (w *workshop) setUpPackages(ctx context.Context, m manager, n need) error {
	installed := func(name string) bool { return w.packageInstalled(ctx, m, name) }
	absent := missing(m.packages(n), installed)
	if len(absent) == 0 {
		w.say("system: %s has the packages needed", w.system.name)
		return nil
	}
	if err := w.installPackages(ctx, m, n, absent); err != nil {
		return err
	}
	if still := missing(absent, installed); len(still) > 0 {
		return fmt.Errorf("still missing after the installation: %s", strings.Join(still, " "))
	}
	return nil
}

// setUpWanted installs what tests would use, and says where that cannot be had: some
// systems lack it, and the tests skip.
func (w *workshop) setUpWanted(ctx context.Context, m manager, n need) {
	absent := missing(m.wanted, func(name string) bool { return w.packageInstalled(ctx, m, name) })
	if n != toTest || len(absent) == 0 {
		return
	}
	if err := w.installPackages(ctx, m, n, absent); err != nil {
		w.say("system: %s cannot be had, and what is tested with it is left out: %v", strings.Join(absent, " "), err)
	}
}

// packageInstalled asks the package manager. Only Debian's prints a state: a
// package that was removed may be known to it all the same.
func (w *workshop) packageInstalled(ctx context.Context, m manager, name string) bool {
	cmd := w.program(ctx, m.query[0], append(slices.Clone(m.query[1:]), name)...)
	cmd.Stdout, cmd.Stderr = nil, nil
	text, err := cmd.Output()
	if m.query[0] == "dpkg-query" {
		return err == nil && slices.Contains(strings.Split(string(text), "\n"), "installed")
	}
	return err == nil
}

func (w *workshop) installPackages(ctx context.Context, m manager, n need, absent []string) error {
	install := slices.Concat(m.install, absent)
	prefix, may := w.privilege(ctx)
	if !may {
		return fmt.Errorf("%s lacks packages, and installing them takes a password; type\n  %s",
			w.system.name, typed(m.refresh, install))
	}
	w.say("system: installing packages %s: %s", purpose(n), strings.Join(absent, " "))
	if !w.yes && atTerminal() && !w.agreed(prefix, install) {
		return fmt.Errorf("nothing was installed; type\n  %s", typed(m.refresh, install))
	}
	return w.step("install", func() error {
		w.refreshLists(ctx, prefix, m.refresh)
		return w.runQuietly(ctx, slices.Concat(prefix, install))
	})
}

// atTerminal reports whether a person is there to be asked.
func atTerminal() bool {
	info, err := os.Stdin.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0 && os.Getenv("CI") == ""
}

// agreed asks the person once whether to make a call with administrator's rights.
func (w *workshop) agreed(prefix, install []string) bool {
	w.say("this needs administrator's rights: %s\ninstall? [y/N]", strings.Join(slices.Concat(prefix, install), " "))
	answer, _ := bufio.NewReader(w.in).ReadString('\n') // an end of the input is no
	return isYes(answer)
}

func isYes(answer string) bool {
	word := strings.ToLower(strings.TrimSpace(answer))
	return word == "y" || word == "yes"
}

// refreshLists reads the lists of packages anew. One source out of several
// that can't be reached is no reason to stop: the installation tells.
func (w *workshop) refreshLists(ctx context.Context, prefix, refresh []string) {
	if len(refresh) == 0 {
		return
	}
	if err := w.runQuietly(ctx, slices.Concat(prefix, refresh)); err != nil {
		w.say("the lists of packages could not all be read: %v", err)
	}
}

func purpose(n need) string {
	if n == toTest {
		return "that the editor is built with or its window is tested with"
	}
	return "that the editor is built with"
}

// typed writes calls as a person with a password types them.
func typed(calls ...[]string) string {
	var lines []string
	for _, call := range calls {
		if len(call) > 0 {
			lines = append(lines, "sudo "+strings.Join(call, " "))
		}
	}
	return strings.Join(lines, " && ")
}

// privilege returns what goes before a call that installs, or false if the
// rights for it can't be had without asking.
func (w *workshop) privilege(ctx context.Context) (prefix []string, may bool) {
	quiet := []string{"env", "DEBIAN_FRONTEND=noninteractive"}
	if os.Geteuid() == 0 {
		return quiet, true
	}
	if w.succeeds(ctx, "sudo", "-n", "true") {
		return slices.Concat([]string{"sudo", "-n"}, quiet), true
	}
	return nil, false
}

// lacking returns what the machine lacks where no package manager is known.
func (w *workshop) lacking(ctx context.Context, n need) []string {
	switch w.system.family {
	case macFamily:
		if !w.succeeds(ctx, "xcode-select", "-p") {
			return []string{"the Xcode command line tools"}
		}
		return nil
	case windowsFamily:
		return missing([]string{"gcc"}, inPath)
	}
	programs := []string{"gcc", "pkg-config"}
	if n == toTest {
		programs = append(programs, testPrograms()...)
	}
	return append(missing(programs, inPath), missing(buildLibraries(), func(name string) bool {
		return w.succeeds(ctx, "pkg-config", "--exists", name)
	})...)
}

func inPath(name string) bool {
	_, err := exec.LookPath(name)
	return err == nil
}

// advice says how a person mends what is lacking.
func advice(f family) string {
	switch f {
	case macFamily:
		return "type: xcode-select --install"
	case windowsFamily:
		return "install MSYS2, type in its shell: pacman -S mingw-w64-ucrt-x86_64-gcc\n" +
			"then add the folder ucrt64\\bin of MSYS2 to PATH and open a new terminal"
	}
	return "install these programs, and these libraries with their development files;\n" +
		"Debian has the same as: " + strings.Join(debianManager().packages(toTest), " ")
}
