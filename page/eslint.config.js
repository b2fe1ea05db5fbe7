import js from "@eslint/js";
import globals from "globals";

export default [
  js.configs.recommended,
  { linterOptions: { reportUnusedDisableDirectives: "error" } },
  { files: ["src/**"], languageOptions: { globals: { ...globals.browser } } },
  {
    files: ["*.mjs", "eslint.config.js", "test/**"],
    languageOptions: { globals: { ...globals.node } },
  },
  {
    rules: {
      "array-callback-return": "error",
      "consistent-return": "error",
      curly: ["error", "multi-line"],
      "dot-notation": "error",
      eqeqeq: "error",
      "max-lines": ["error", { max: 400, skipComments: true }],
      "max-lines-per-function": ["error", { max: 45, skipComments: true }],
      "no-eval": "error",
      "no-implicit-globals": "error",
      "no-implied-eval": "error",
      "no-shadow": "error",
      "no-throw-literal": "error",
      "no-unused-vars": ["error", { caughtErrors: "none", ignoreRestSiblings: true }],
      "no-use-before-define": "off",
      "no-useless-return": "error",
      "no-var": "error",
      "object-shorthand": "error",
      "prefer-const": ["error", { destructuring: "all" }],
      "prefer-template": "error",
    },
  },
  { files: ["src/card/shaders.js"], rules: { "max-lines-per-function": "off" } }, // texts of programs
];
