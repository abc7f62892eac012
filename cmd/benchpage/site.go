package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// What a site's page has besides the one file's.
const (
	siteHead = "<link rel=\"manifest\" href=\"manifest.webmanifest\">\n<link rel=\"icon\" href=\"icon.png\">\n<link rel=\"apple-touch-icon\" href=\"icon.png\">\n" +
		"<meta name=\"apple-mobile-web-app-title\" content=\"evendrop\">\n"
	siteRules  = "; manifest-src 'self'; worker-src 'self'"
	siteScript = "if ('serviceWorker' in navigator) navigator.serviceWorker.register('worker.js');"
)

// writeSite writes the page as a folder for any host of static files over HTTPS.
func writeSite(dir string, core program) error {
	page, err := assembled(core, utf8, siteHead, siteScript, siteRules)
	if err != nil {
		return err
	}
	// an icon is asked for of the site itself
	page = bytes.Replace(page, []byte("img-src data: blob:"), []byte("img-src 'self' data: blob:"), 1)
	icon, err := drawIcon()
	if err != nil {
		return err
	}
	manifest, err := json.MarshalIndent(map[string]any{
		"name": "evendrop", "short_name": "evendrop", "start_url": "./", "scope": "./", "display": "standalone",
		"background_color": "#f5f3ee", "theme_color": "#14202c",
		"icons": []map[string]string{{"src": "icon.png", "sizes": fmt.Sprintf("%[1]dx%[1]d", iconSize), "type": "image/png"}},
	}, "", "  ")
	if err != nil {
		return err
	}
	sum := sha256.Sum256(page)
	worker := strings.NewReplacer("'VERSION'", "'evendrop-"+hex.EncodeToString(sum[:8])+"'",
		"FILES", "['./', 'manifest.webmanifest', 'icon.png']").Replace(part("worker.js"))
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, f := range []struct {
		name string
		data []byte
	}{{"index.html", page}, {"manifest.webmanifest", append(manifest, '\n')}, {"icon.png", icon}, {"worker.js", []byte(worker)}} {
		if err := os.WriteFile(filepath.Join(dir, f.name), f.data, 0o644); err != nil {
			return err
		}
	}
	fmt.Printf("%s: index.html %.2f MB, for any host of static files over HTTPS\n", dir, mb(len(page)))
	return nil
}
