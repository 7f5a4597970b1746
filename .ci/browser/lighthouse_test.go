package browser

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// asked are the scores that Lighthouse must give, of 1. Performance alone depends on the machine.
var asked = map[string]float64{"accessibility": 1, "best-practices": 1, "seo": 1, "performance": 0.95}

// TestLighthouse has Lighthouse judge the home page and one entry of the example. LIGHTHOUSE is its command.
func TestLighthouse(t *testing.T) {
	site := compiled(t, "../../example-build")
	server := httptest.NewServer(http.FileServer(http.Dir(site)))
	defer server.Close()
	for _, page := range []string{"/", "/entries/2026-04-18-hill-cam.html"} {
		out := filepath.Join(t.TempDir(), "report.json")
		run := exec.Command(need(t, "LIGHTHOUSE"), server.URL+page, "--quiet", "--chrome-flags=--headless=new --no-sandbox", "--output=json", "--output-path="+out,
			"--only-categories=performance,accessibility,best-practices,seo")
		if text, err := run.CombinedOutput(); err != nil {
			t.Fatalf("%s: %v\n%s", page, err, text)
		}
		text, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		var report struct {
			Categories map[string]struct{ Score float64 }
			Audits     map[string]struct {
				Title string
				Score *float64
			}
		}
		if err := json.Unmarshal(text, &report); err != nil {
			t.Fatal(err)
		}
		for name, want := range asked {
			got, there := report.Categories[name]
			if !there || got.Score < want {
				t.Errorf("%s: %s is %v, want %v", page, name, got.Score, want)
			}
		}
		if t.Failed() {
			for name, audit := range report.Audits {
				if audit.Score != nil && *audit.Score < 1 {
					t.Logf("%s: %s %v: %s", page, name, *audit.Score, audit.Title)
				}
			}
		}
	}
}
