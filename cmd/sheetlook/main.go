// Command sheetlook draws the pages of every invented job again, for a person to look at:
//
//	go run ./cmd/sheetlook DIR
//
// DIR gets each page, as it is seen on a desk, on phones, in the dark, in forced colours and
// on paper, what is wrong with it, and an index.html with all of that side by side. It needs
// a Chromium, and poppler-utils for the paper's pictures.
package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"time"

	"evendrop/cmd/internal/browser"
	"evendrop/cmd/internal/looked"
	"evendrop/cmd/internal/scenes"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "type: go run ./cmd/sheetlook DIR")
		os.Exit(2)
	}
	ctx, cancel := signal.NotifyContext(context.Background(), os.Interrupt)
	defer cancel()
	if err := look(ctx, os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "sheetlook:", err)
		os.Exit(1)
	}
}

// limit is how long all of it may take; alone it takes two minutes.
const limit = 20 * time.Minute

// look draws everything into a folder, which is made.
func look(ctx context.Context, dir string) error {
	ctx, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	b, err := browser.Start(ctx, "")
	if err != nil {
		return err
	}
	defer b.Close()
	p, err := b.NewPage()
	if err != nil {
		return err
	}
	var all []seen
	for _, s := range scenes.All() {
		list, err := scene(p, s, dir)
		if err != nil {
			return fmt.Errorf("%s: %w", s.Name, err)
		}
		all = append(all, list...)
	}
	index := filepath.Join(dir, "index.html")
	if err := os.WriteFile(index, indexOf(all), 0o666); err != nil {
		return err
	}
	fmt.Println("Look at", index)
	return nil
}

// scene draws a scene's pages.
func scene(p *browser.Page, s scenes.Scene, dir string) (list []seen, err error) {
	pages, err := looked.Draw(s, dir)
	if err != nil {
		return nil, err
	}
	for _, d := range pages {
		fmt.Fprintln(os.Stderr, d.Name)
		a := album{page: p, dir: dir, seen: seen{Name: d.Name, Shows: s.Shows, Bytes: len(d.HTML)}}
		if err := a.fill(d.HTML); err != nil {
			return nil, err
		}
		list = append(list, a.seen)
	}
	return list, nil
}
