package httpapi

import (
	"encoding"
	"encoding/json"
	"fmt"
	"net/http"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"time"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/getkin/kin-openapi/openapi3gen"
	"github.com/gofiber/fiber/v2"
)

// An operation is what openapi.json says of a route beyond its path.
type operation struct {
	summary string
	query   []parameter
	headers []parameter
	takes   any    // a value of the JSON body's Go type; nil for none
	bytes   string // the media type of a body of bytes; "" for none
	gives   []answer
}

type parameter struct {
	name, about string
	schema      *openapi3.Schema
	required    bool
}

// An answer is one way in which a route answers when all is well, or a refusal
// with a body of its own; every other refusal is a problemBody.
type answer struct {
	status int
	about  string
	body   any    // a value of the JSON body's Go type; nil for none
	bytes  string // the media type of a body of bytes or text; "" for none
}

// describe builds the OpenAPI description of the routes. It fails only on a
// mistake in the table.
func describe(routes []route) (*openapi3.T, error) {
	d := describer{schemas: openapi3.Schemas{}}
	doc := &openapi3.T{
		OpenAPI:    "3.0.3",
		Info:       &openapi3.Info{Title: "Haulm", Version: "1", Description: apiAbout},
		Paths:      openapi3.NewPaths(),
		Components: &openapi3.Components{Schemas: d.schemas, SecuritySchemes: securitySchemes()},
	}
	for _, r := range routes {
		path, names := openPath(r.path)
		described, err := d.operation(r, names)
		if err != nil {
			return nil, fmt.Errorf("%s %s: %w", r.method, r.path, err)
		}
		if doc.Paths.Value(path) == nil {
			doc.Paths.Set(path, &openapi3.PathItem{})
		}
		doc.Paths.Value(path).SetOperation(r.method, described)
	}
	return doc, nil
}

const apiAbout = "Records, changes and photographs of gardens. A device authenticates with the token it got when it joined, " +
	"as a bearer token, or in a browser by cookie. Every refusal is a JSON object with a code for programs and a sentence for people."

func securitySchemes() openapi3.SecuritySchemes {
	return openapi3.SecuritySchemes{
		"token":  {Value: openapi3.NewSecurityScheme().WithType("http").WithScheme("bearer")},
		"cookie": {Value: openapi3.NewSecurityScheme().WithType("apiKey").WithIn("cookie").WithName(cookieName)},
	}
}

// openPath turns Fiber's /a/:b into /a/{b} and lists the parameters.
func openPath(path string) (string, []string) {
	var names []string
	open := regexp.MustCompile(`:(\w+)`).ReplaceAllStringFunc(path, func(found string) string {
		names = append(names, found[1:])
		return "{" + found[1:] + "}"
	})
	return open, names
}

type describer struct{ schemas openapi3.Schemas }

func (d describer) operation(r route, names []string) (*openapi3.Operation, error) {
	op := openapi3.NewOperation()
	op.Summary, op.OperationID = r.about.summary, operationID(r)
	if r.access != anyone {
		op.Security = openapi3.NewSecurityRequirements().
			With(openapi3.NewSecurityRequirement().Authenticate("token")).
			With(openapi3.NewSecurityRequirement().Authenticate("cookie"))
	}
	for _, name := range names {
		op.AddParameter(openapi3.NewPathParameter(name).WithSchema(openapi3.NewStringSchema()))
	}
	for _, p := range r.about.query {
		op.AddParameter(openapi3.NewQueryParameter(p.name).WithDescription(p.about).WithSchema(p.schema).WithRequired(p.required))
	}
	for _, p := range r.about.headers {
		op.AddParameter(openapi3.NewHeaderParameter(p.name).WithDescription(p.about).WithSchema(p.schema).WithRequired(p.required))
	}
	if err := d.requestBody(op, r.about); err != nil {
		return nil, err
	}
	return op, d.responses(op, r.about.gives)
}

func operationID(r route) string {
	words := strings.FieldsFunc(strings.ToLower(r.method)+r.path, func(c rune) bool { return strings.ContainsRune("/:.-", c) })
	for i := 1; i < len(words); i++ {
		words[i] = strings.ToUpper(words[i][:1]) + words[i][1:]
	}
	return strings.Join(words, "")
}

func (d describer) requestBody(op *openapi3.Operation, about operation) error {
	body := openapi3.NewRequestBody().WithRequired(true)
	switch {
	case about.takes != nil:
		schema, err := d.schemaOf(about.takes)
		if err != nil {
			return err
		}
		op.RequestBody = &openapi3.RequestBodyRef{Value: body.WithJSONSchemaRef(schema)}
	case about.bytes != "":
		op.RequestBody = &openapi3.RequestBodyRef{Value: body.WithContent(openapi3.NewContentWithSchema(binarySchema(), []string{about.bytes}))}
	}
	return nil
}

func (d describer) responses(op *openapi3.Operation, gives []answer) error {
	op.Responses = openapi3.NewResponses()
	op.Responses.Delete("default")
	for _, a := range gives {
		response := openapi3.NewResponse().WithDescription(a.about)
		if a.body != nil {
			schema, err := d.schemaOf(a.body)
			if err != nil {
				return err
			}
			response = response.WithJSONSchemaRef(schema)
		} else if a.bytes != "" {
			response = response.WithContent(openapi3.NewContentWithSchema(binarySchema(), []string{a.bytes}))
		}
		op.Responses.Set(strconv.Itoa(a.status), &openapi3.ResponseRef{Value: response})
	}
	refused, err := d.schemaOf(problemBody{})
	if err != nil {
		return err
	}
	op.Responses.Set("default", &openapi3.ResponseRef{Value: openapi3.NewResponse().
		WithDescription("refused, with the reason").WithJSONSchemaRef(refused)})
	return nil
}

func binarySchema() *openapi3.Schema { return openapi3.NewStringSchema().WithFormat("binary") }

// schemaOf derives the schema of a Go type from its JSON tags: what has no
// omitempty is always there, and pointers may be null.
func (d describer) schemaOf(value any) (*openapi3.SchemaRef, error) {
	if shaped, ok := value.(*openapi3.Schema); ok {
		return openapi3.NewSchemaRef("", shaped), nil
	}
	return openapi3gen.NewSchemaRefForValue(value, d.schemas, openapi3gen.SchemaCustomizer(asJSONWrites))
}

// asJSONWrites makes a type that writes itself as text a string, and what has
// no omitempty required.
func asJSONWrites(_ string, t reflect.Type, _ reflect.StructTag, schema *openapi3.Schema) error {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if t.Implements(reflect.TypeFor[encoding.TextMarshaler]()) && t != reflect.TypeFor[time.Time]() {
		*schema = openapi3.Schema{Type: &openapi3.Types{openapi3.TypeString}, Nullable: schema.Nullable}
		return nil
	}
	requireTagged(t, schema)
	return nil
}

func requireTagged(t reflect.Type, schema *openapi3.Schema) {
	if t.Kind() != reflect.Struct || len(schema.Properties) == 0 {
		return
	}
	for i := range t.NumField() {
		name, options, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		if name != "" && name != "-" && !strings.Contains(options, "omit") {
			schema.Required = append(schema.Required, name)
		}
	}
}

// serveDescription answers with openapi.json, built once at the start.
func (a *App) serveDescription(c *fiber.Ctx) error {
	c.Set(fiber.HeaderContentType, fiber.MIMEApplicationJSONCharsetUTF8)
	return c.Status(http.StatusOK).Send(a.description)
}

func marshalDescription(routes []route) ([]byte, error) {
	doc, err := describe(routes)
	if err != nil {
		return nil, err
	}
	return json.Marshal(doc)
}
