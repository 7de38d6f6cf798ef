package httpapi

import (
	"crypto/sha256"
	"encoding/base64"
	"io/fs"
	"mime"
	"path"
	"slices"
	"strings"

	"github.com/gofiber/fiber/v2"

	"haulm/server/refusal"
)

const (
	shellPage = "index.html"
	// hashedFolder holds files whose names change with their bytes.
	hashedFolder    = "assets/"
	cacheForever    = "public, max-age=31536000, immutable" // RFC 8246; a year is as long as caches look
	cacheAskFirst   = "no-cache"
	etagBytes       = 12 // of the SHA-256: 96 bits, beyond chance for one app's files
	defaultMimeType = "application/octet-stream"
)

// A shell is the phone's app as files, indexed once: their types, their tags
// and which of them lie there compressed too.
type shell struct {
	files fs.FS
	known map[string]shellFile
}

type shellFile struct {
	mime, tag string
	encodings []string // in order of preference: "br", "gzip"
}

// suffixes of compressed siblings, best first.
func compressed() []struct{ encoding, suffix string } {
	return []struct{ encoding, suffix string }{{"br", ".br"}, {"gzip", ".gz"}}
}

func newShell(files fs.FS) (*shell, error) {
	s := &shell{files: files, known: map[string]shellFile{}}
	if files == nil {
		return s, nil
	}
	err := fs.WalkDir(files, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || strings.HasSuffix(name, ".br") || strings.HasSuffix(name, ".gz") {
			return err
		}
		content, err := fs.ReadFile(files, name)
		if err == nil {
			s.known[name] = s.describe(name, content)
		}
		return err
	})
	return s, err
}

func (s *shell) describe(name string, content []byte) shellFile {
	sum := sha256.Sum256(content)
	file := shellFile{mime: mimeOf(name), tag: base64.RawURLEncoding.EncodeToString(sum[:etagBytes])}
	for _, kind := range compressed() {
		if _, err := fs.Stat(s.files, name+kind.suffix); err == nil {
			file.encodings = append(file.encodings, kind.encoding)
		}
	}
	return file
}

// mimeOf knows the types that a bare machine's tables may lack.
func mimeOf(name string) string {
	switch ext := path.Ext(name); ext {
	case ".js", ".mjs":
		return "text/javascript; charset=utf-8"
	case ".webmanifest":
		return "application/manifest+json"
	case ".wasm":
		return "application/wasm"
	case ".woff2":
		return "font/woff2"
	default:
		if known := mime.TypeByExtension(ext); known != "" {
			return known
		}
		return defaultMimeType
	}
}

// serveShell answers every address that is no route: with a file of the app, or
// with its page, which finds out itself what the address means.
func (a *App) serveShell(c *fiber.Ctx) error {
	if c.Method() != fiber.MethodGet && c.Method() != fiber.MethodHead || a.isRoute(c.Path()) {
		return fiber.ErrNotFound
	}
	name := strings.TrimPrefix(path.Clean(c.Path()), "/")
	if _, known := a.shell.known[name]; !known {
		if path.Ext(name) != "" {
			return refusal.New(refusal.Missing, "no_such_file", "the app has no such file; reload it to get its newest version")
		}
		name = shellPage
	}
	if name == shellPage && a.otherLoopback(c) {
		return c.Redirect(originOf(a.PublicURL)+c.Path(), fiber.StatusTemporaryRedirect)
	}
	return a.shell.send(c, name)
}

// isRoute reports whether an address is the API's, so that a method it does not
// know is not answered with the page, as if all were well.
func (a *App) isRoute(path string) bool {
	return strings.HasPrefix(path, "/api/") || slices.Contains(a.addresses, path)
}

// otherLoopback reports whether the page was asked for under another name of
// this machine than the public one. A phone's store belongs to one origin, so
// there must be one.
func (a *App) otherLoopback(c *fiber.Ctx) bool {
	host := string(c.Request().Host())
	return LoopbackHost(a.PublicURL.Hostname()) && host != a.PublicURL.Host && LoopbackHost(hostname(c)) &&
		portOf(host) == a.PublicURL.Port()
}

func portOf(host string) string {
	if i := strings.LastIndexByte(host, ':'); i >= 0 && !strings.HasSuffix(host, "]") {
		return host[i+1:]
	}
	return ""
}

func (s *shell) send(c *fiber.Ctx, name string) error {
	file, known := s.known[name]
	if !known {
		return refusal.New(refusal.Missing, "no_app", "this build of Haulm has no app in it: build it with make build")
	}
	encoding, suffix := file.negotiate(c)
	tag := `"` + file.tag + suffix + `"`
	c.Set(fiber.HeaderETag, tag)
	c.Set(fiber.HeaderVary, fiber.HeaderAcceptEncoding)
	c.Set(fiber.HeaderCacheControl, cacheOf(name))
	if c.Get(fiber.HeaderIfNoneMatch) == tag {
		return c.SendStatus(fiber.StatusNotModified)
	}
	content, err := fs.ReadFile(s.files, name+suffix)
	if err != nil {
		return err
	}
	if encoding != "" {
		c.Set(fiber.HeaderContentEncoding, encoding)
	}
	c.Set(fiber.HeaderContentType, file.mime)
	return c.Send(content)
}

// negotiate picks the best compressed sibling that the client takes. A client
// that does not say takes none: Fiber would read its silence as "any".
func (f shellFile) negotiate(c *fiber.Ctx) (encoding, suffix string) {
	if c.Get(fiber.HeaderAcceptEncoding) == "" {
		return "", ""
	}
	for _, kind := range compressed() {
		for _, there := range f.encodings {
			if there == kind.encoding && c.AcceptsEncodings(there) == there {
				return kind.encoding, kind.suffix
			}
		}
	}
	return "", ""
}

func cacheOf(name string) string {
	if strings.HasPrefix(name, hashedFolder) {
		return cacheForever
	}
	return cacheAskFirst
}
