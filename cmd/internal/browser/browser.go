package browser

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"time"
)

// names are what a Chromium is called on a PATH.
var names = []string{"chromium", "chromium-browser", "google-chrome"}

// ErrNone says that there is nothing to drive.
var ErrNone = errors.New("no browser here: none of chromium, chromium-browser and google-chrome is on the PATH; on Debian: apt-get install chromium")

// Find is the path of a Chromium; ErrNone where there is none.
func Find() (string, error) {
	for _, name := range names {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", ErrNone
}

// callLimit is how long one answer may take. A busy machine with two cores printed the
// longest page in 3 s.
const callLimit = 30 * time.Second

// farewell is how long a browser may take to close before it is killed.
const farewell = 5 * time.Second

// Browser is a running one.
type Browser struct {
	*wire
	command *exec.Cmd
	ended   chan struct{} // closed when the process is gone
	profile string        // to be removed with the browser; "": it is the caller's
}

// Start starts a browser without a window. Profile is the folder of what it remembers,
// which is left as it is; "": one of its own, removed by Close. The browser is killed when
// the context is done.
func Start(ctx context.Context, profile string) (*Browser, error) {
	path, err := Find()
	if err != nil {
		return nil, err
	}
	b := &Browser{ended: make(chan struct{})}
	if profile == "" {
		if profile, err = os.MkdirTemp("", "evendrop-browser-"); err != nil {
			return nil, err
		}
		b.profile = profile
	}
	b.command = exec.CommandContext(ctx, path, arguments(profile)...)
	b.command.Env = append(os.Environ(), "TMPDIR="+profile) // what a killed one leaves lies there
	b.command.Stderr = io.Discard                           // a pipe that its helpers hold too: Wait waits for all of them,
	b.command.WaitDelay = farewell                          // but not for ever
	if err := b.connect(ctx); err != nil {
		b.forget()
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return b, nil
}

// arguments make a browser quiet: it asks for nothing of its own, and draws alike
// everywhere.
func arguments(profile string) []string {
	list := []string{
		"--headless=new", "--remote-debugging-pipe", "--user-data-dir=" + profile, "--no-first-run", "--no-default-browser-check",
		"--disable-gpu", "--disable-extensions", "--disable-background-networking", "--disable-component-update", "--disable-sync",
		"--disable-breakpad", "--disable-dev-shm-usage", "--hide-scrollbars", "--mute-audio", "--password-store=basic",
		"--force-color-profile=srgb", "--font-render-hinting=none", "--lang=en",
	}
	if os.Geteuid() == 0 {
		list = append(list, "--no-sandbox") // which it refuses to set up for root
	}
	return append(list, "about:blank")
}

// connect starts the process on two pipes.
func (b *Browser) connect(ctx context.Context) error {
	theirIn, ourOut, err := os.Pipe()
	if err != nil {
		return err
	}
	defer theirIn.Close()
	ourIn, theirOut, err := os.Pipe()
	if err != nil {
		return errors.Join(err, ourOut.Close())
	}
	defer theirOut.Close()
	b.command.ExtraFiles = []*os.File{theirIn, theirOut}
	if err := b.command.Start(); err != nil {
		return errors.Join(err, ourOut.Close(), ourIn.Close())
	}
	b.wire = newWire(ctx, ourIn, ourOut)
	go func() {
		_ = b.command.Wait() // how a browser ends tells nothing
		close(b.ended)
	}()
	return nil
}

// Close ends the browser, in peace if it can, and removes a profile of its own.
func (b *Browser) Close() error {
	_ = b.call("", "Browser.close", nil, nil) // or it is gone already
	select {
	case <-b.ended:
	case <-time.After(farewell):
	}
	return b.Kill()
}

// Kill ends the browser at once, as when a phone's battery is taken out: nothing that it
// has not yet written is written. One that has ended stays so.
func (b *Browser) Kill() error {
	_ = b.command.Process.Kill() // fails where it is gone
	<-b.ended
	b.hangUp()
	return b.forget()
}

// forget removes a profile that is the browser's own.
func (b *Browser) forget() error {
	if b.profile == "" {
		return nil
	}
	return os.RemoveAll(b.profile)
}
