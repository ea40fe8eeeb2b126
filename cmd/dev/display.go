package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"
)

// displayPatience is how long the virtual screen may take to come up.
const displayPatience = 20 * time.Second

// display is a virtual screen with a window manager on it.
type display struct {
	environ []string // for programs that show windows on it
	running []*exec.Cmd
}

// startDisplay brings up a screen of its own, on a number that is free. What
// its programs print goes to files in logs.
func startDisplay(ctx context.Context, environ []string, logs string) (*display, error) {
	d := &display{}
	if err := d.startServer(environ, logs); err != nil {
		d.end()
		return nil, err
	}
	if err := d.startManager(ctx, logs); err != nil {
		d.end()
		return nil, err
	}
	return d, nil
}

// startServer starts Xvfb, which chooses the number and writes it to the pipe
// once it can be reached.
func (d *display) startServer(environ []string, logs string) error {
	reader, writer, err := os.Pipe()
	if err != nil {
		return err
	}
	defer reader.Close()
	server := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", "1600x1000x24", "-dpi", "96", "-nolisten", "tcp", "-noreset")
	server.ExtraFiles = []*os.File{writer}
	err = d.start(server, environ, filepath.Join(logs, "xvfb.log"))
	writer.Close()
	if err != nil {
		return err
	}
	if err := reader.SetReadDeadline(time.Now().Add(displayPatience)); err != nil {
		return err
	}
	number, err := bufio.NewReader(reader).ReadString('\n')
	if err != nil {
		return fmt.Errorf("the virtual screen did not come up; see %s: %w", filepath.Join(logs, "xvfb.log"), err)
	}
	d.environ = slices.Concat(environ, []string{"DISPLAY=:" + strings.TrimSpace(number)})
	return nil
}

// startManager starts openbox and waits until it manages windows: without it
// focus and resizing don't behave as on a desktop.
func (d *display) startManager(ctx context.Context, logs string) error {
	err := d.start(exec.Command("openbox", "--sm-disable"), d.environ, filepath.Join(logs, "openbox.log"))
	if err != nil {
		return err
	}
	for limit := time.Now().Add(displayPatience); time.Now().Before(limit); time.Sleep(50 * time.Millisecond) {
		probe := exec.CommandContext(ctx, "xdotool", "get_num_desktops")
		probe.Env = d.environ
		if probe.Run() == nil {
			return nil
		}
		if ctx.Err() != nil {
			return ctx.Err()
		}
	}
	return fmt.Errorf("the window manager did not come up; see %s", filepath.Join(logs, "openbox.log"))
}

func (d *display) start(cmd *exec.Cmd, environ []string, log string) error {
	file, err := os.Create(log)
	if err != nil {
		return err
	}
	defer file.Close()
	cmd.Env, cmd.Stdout, cmd.Stderr = environ, file, file
	if err := cmd.Start(); err != nil {
		return explain(err, cmd.Args[0], cmd.Args[1:])
	}
	d.running = append(d.running, cmd)
	return nil
}

// end stops what was started, the last first.
func (d *display) end() {
	for i := len(d.running) - 1; i >= 0; i-- {
		endProgram(d.running[i])
	}
	d.running = nil
}

// endProgram asks a program to end and ends it by force if it does not.
func endProgram(cmd *exec.Cmd) {
	if errors.Is(cmd.Process.Signal(syscall.SIGTERM), os.ErrProcessDone) {
		return
	}
	force := time.AfterFunc(endingGrace, func() { cmd.Process.Kill() })
	defer force.Stop()
	cmd.Wait()
}
