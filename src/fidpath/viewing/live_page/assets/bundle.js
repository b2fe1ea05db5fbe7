// Built by page/build.mjs from sources e1e36bceb05a1cf5: change those, and run `make page`.
"use strict";(()=>{function i(e){let t=document.getElementById(e);if(!t)throw new Error(`the page has no ${e}`);return t}var l=e=>i(e);function c(e,t={},...n){let s=document.createElement(e);for(let[a,o]of Object.entries(t))a==="text"?s.textContent=o:a.startsWith("on")?s.addEventListener(a.slice(
2),o):o===!0?s.setAttribute(a,""):o!==!1&&o!==null&&o!==void 0&&s.setAttribute(a,o);for(let a of n)a!==null&&s.append(a);return s}var x=e=>e instanceof Error?e.
message:String(e);var k=20,N=450,r={fields:[],texts:{},number:0,sent:0,mine:0,heard:0,shown:0,timer:void 0,patience:void 0,frame:null,wrong:!1,busy:!1};async function h(e,t){let n=t===
void 0?{}:{method:"POST",body:JSON.stringify(t)};return C(await fetch(e,n))}async function C(e){let n=(e.headers.get("Content-Type")||"").startsWith("applicatio\
n/json")?await e.json():{problem:await e.text()};return{status:e.status,data:n}}async function _(){let{data:e}=await h("state");i("name").textContent=e.name,document.
title=`${e.name}, live`,r.texts=e.texts,A(e.fields,e.texts),w(e.plan),L(e.pictures),l("save-name").value=e.suggested,i("save-note").textContent=`Goes into ${e.folder}\
. Comments of the file this job came from are not kept.`,Q(),S(e.news),G()}function A(e,t){r.fields=e;let n=i("form");for(let s of new Set(e.map(a=>a.group))){let a=e.
filter(o=>o.group===s);n.append(c("fieldset",{},c("legend",{text:s}),...a.map(o=>I(o,t))))}n.addEventListener("input",p),n.addEventListener("change",p),n.addEventListener(
"keydown",M),n.addEventListener("submit",s=>s.preventDefault()),b()}var d=e=>`f-${e.replace(/\W/g,"-")}`;function I(e,t){let n=d(e.key),s=P(e,n);s.value=t[e.key]||
(e.kind==="switch"?e.default:"");let a=c("small",{text:e.units});return c("div",{class:"field","data-key":e.key},c("label",{for:n,text:e.label},a),s,c("p",{class:"\
hint",id:`${n}-hint`,text:e.bounds,hidden:!e.bounds}),c("p",{class:"error",id:`${n}-error`,role:"status",hidden:!0}))}function P(e,t){let n={id:t,name:e.key,"ar\
ia-describedby":`${t}-hint ${t}-error`};if(e.kind==="choice"||e.kind==="switch"){let s=e.kind==="choice"?e.choices:[["yes","yes"],["no","no"]];return c("select",
n,...s.map(([a,o])=>c("option",{value:a,text:o})))}return c("input",{...n,placeholder:e.default,maxlength:"200",spellcheck:"false"})}var U=e=>i(d(e)).closest(".\
field");function b(){let e=l(d("terminator.kind")).value;for(let{key:t,of:n}of r.fields)U(t).hidden=n.length>0&&!n.includes(e)}function M(e){let t=e.target,n={ArrowUp:1,
ArrowDown:-1}[e.key],s=t.tagName==="INPUT"&&/\d+(?:\.(\d+))?(?![\d/])/.exec(t.value);if(!n||!s||t.value[s.index-1]==="/")return;e.preventDefault();let a=(s[1]||
"").length,o=Math.max(0,Number(s[0])+n*10**-a).toFixed(a);t.value=t.value.slice(0,s.index)+o+t.value.slice(s.index+s[0].length),p()}function p(){b(),clearTimeout(
r.timer),r.number+=1,r.timer=setTimeout(E,k)}var D=()=>Object.fromEntries(r.fields.map(({key:e})=>[e,l(d(e)).value]));async function E(){if(r.busy){r.timer=setTimeout(
E,k);return}let e=r.number;r.busy=!0;let{status:t,data:n}=await f(()=>h("job",{texts:D()}));if(r.busy=!1,!(e!==r.number||t===0)){if(r.sent=e,r.wrong=t!==200||!n.
plan,clearTimeout(r.patience),r.wrong){r.patience=setTimeout(()=>g(n.errors||{},n.general||n.problem||""),N);return}g({},""),w(n.plan),R(n.fields),r.texts=n.texts,
r.mine=n.change}}async function f(e){try{return await e()}catch{return $(),{status:0,data:{}}}}function g(e,t){for(let{key:n}of r.fields){let[s,a]=[l(d(n)),i(`${d(
n)}-error`)],o=e[n]||"";s.setAttribute("aria-invalid",o?"true":"false"),a.textContent!==o&&(a.textContent=o),a.hidden=!o}i("general").textContent=t,i("general").
hidden=!t,i("stale").hidden=Object.keys(e).length===0&&!t}function R(e){for(let t of e){let n=l(d(t.key));n.tagName==="INPUT"&&(n.placeholder=t.default),i(`${d(
t.key)}-hint`).textContent=t.bounds}}async function F(){let{status:e,data:t}=await f(()=>h("state"));if(e===200&&(L(t.pictures),!(JSON.stringify(t.texts)===JSON.
stringify(r.texts)||r.number!==r.sent))){r.texts=t.texts;for(let{key:n,kind:s,default:a}of r.fields){let o=l(d(n));o!==document.activeElement&&(o.value=t.texts[n]||
(s==="switch"?a:""))}b(),g({},""),w(t.plan)}}var W=["eye_length_to_crown","eye_slack","throat_angle","tail_to_lay_out","bury_length","take_up"],v=[["marks","Mar\
ks"],["lengths","Lengths"],["figures","Angles, shares and tensions"]];function w(e){let t=new Map([...i("plan").querySelectorAll("td")].map(o=>[o.dataset.name,o.
textContent])),n=v.map(([o,u])=>B(u,e[o],t));i("plan").replaceChildren(...n);let s=v.flatMap(([o])=>e[o]),a=W.flatMap(o=>s.filter(u=>u.name===o));i("first").replaceChildren(
...a.flatMap(({label:o,shown:u})=>[c("dt",{text:o}),c("dd",{text:u})])),i("warnings").replaceChildren(...e.warnings.map(o=>c("li",{text:o}))),i("cautions").replaceChildren(
...e.cautions.map(o=>c("li",{text:o})))}function B(e,t,n){let s=t.map(({name:a,label:o,shown:u,measured_from:T})=>{let O=n.size>0&&n.get(a)!==u,j=c("td",{"data-\
name":a,text:u,class:O?"new":null});return c("tr",{},c("th",{scope:"row",text:o},c("small",{text:T})),j)});return c("table",{},c("caption",{text:e}),c("tbody",{},
...s))}function G(){let e=new EventSource("news");e.onmessage=t=>S(JSON.parse(t.data)),e.onerror=()=>{e.readyState===EventSource.CLOSED?J():$()}}function m(e,t){
let n=i("words");n.textContent!==e&&(n.textContent=e),i("status").classList.toggle("wrong",t)}function $(){m("fidpath has ended. The picture stays; start it aga\
in for the fields to answer.",!0),i("progress").hidden=!0}function J(){m("No more news here: too many windows show this job. Close one and load this page again.",
!0)}var q=e=>`${e.slice(0,1).toUpperCase()}${e.slice(1)}.`;function S(e){i("progress").value=e.share,i("progress").hidden=e.phase==="done"||e.phase==="refused";
let n=e.shown>0&&e.shown_change!==e.change?" The picture is still that of the figures before.":"",s=e.phase==="refused";m(`${s?"This can't be settled: ":""}${q(
e.words)}${n}`,s);let a=e.shown>r.shown;a&&z(e.shown),(a||e.change!==r.heard&&e.change!==r.mine)&&F(),r.heard=e.change}async function z(e){if(r.shown=e,!r.frame){
r.frame=H();return}let t=await r.frame,{status:n,text:s}=await f(async()=>{let a=await fetch("data");return{status:a.status,data:{},text:await a.text()}});if(n===
200)try{t.fidpathLoad(s||"")}catch(a){m(`The new picture can't be shown: ${x(a)}`,!0)}}function H(){let e=c("iframe",{src:"splice.html",title:"The splice, step \
by step"});return new Promise(t=>{e.addEventListener("load",()=>{i("waiting").hidden=!0,e.contentWindow&&t(e.contentWindow)}),i("frames").append(e)})}async function K(e){
e.preventDefault();let t={name:l("save-name").value,replace:l("save-replace").checked};for(let s=0;s<50&&!r.wrong&&r.number!==r.sent;s++)await new Promise(a=>setTimeout(
a,100));if(r.wrong||r.number!==r.sent){i("save-said").textContent="The figures above don't hold: nothing was saved.";return}let{data:n}=await f(()=>h("save",t));
i("save-said").textContent=n.saved?`Saved as ${n.saved}.`:n.problem||"",i("save-said").classList.toggle("error",!n.saved),l("save-replace").checked=!1}var V=[["\
splice.html","the page: one file that opens anywhere"],["job.toml","the job file"],["plan.json","the plan, for other programs"],["splice.stl","the finished spli\
ce as a solid, STL in millimetres"],["splice.glb","the finished splice as a solid, GLB in metres"]];function Q(){let e=V.map(([t,n])=>{let s=c("button",{type:"b\
utton",text:`Download ${n}`});return s.addEventListener("click",()=>y(t)),c("li",{},s)});i("take").append(...e),i("take-button").addEventListener("click",()=>y(
`${l("take-picture").value}.png`)),i("save").addEventListener("submit",K)}function L(e){let t=l("take-picture"),n=t.value;t.replaceChildren(...e.map(([s,a])=>c(
"option",{value:s,text:a}))),e.some(([s])=>s===n)&&(t.value=n),l("take-button").disabled=e.length===0}async function y(e){let t=i("take-said");t.textContent="It\
 is being made.";let{status:n,data:s}=await f(()=>X(e));if(t.textContent=n===200?`${s.name} is there.`:s.problem||"It could not be made.",t.classList.toggle("er\
ror",n!==200),n!==200)return;let a=c("a",{href:URL.createObjectURL(s.blob),download:s.name});a.click(),setTimeout(()=>URL.revokeObjectURL(a.href),6e4)}async function X(e){
let t=await fetch(`take/${e}`);if(t.status===200){let n=/filename="([^"]+)"/.exec(t.headers.get("Content-Disposition")||"");return{status:200,data:{blob:await t.
blob(),name:n?n[1]:e}}}return C(t)}_();})();
