// Built by page/build.mjs from sources 59f6ab580e552ad0: change those, and run `make page`.
"use strict";(()=>{function i(t){let n=document.getElementById(t);if(!n)throw new Error(`the page has no ${t}`);return n}var l=t=>i(t);function c(t,n={},...e){let s=document.createElement(t);for(let[a,r]of Object.entries(n))a==="text"?s.textContent=r:a.startsWith("on")?s.addEventListener(a.slice(
2),r):r===!0?s.setAttribute(a,""):r!==!1&&r!==null&&r!==void 0&&s.setAttribute(a,r);return s.append(...e.filter(a=>a!==null)),s}var v=20,j=450,o={fields:[],texts:{},number:0,sent:0,mine:0,heard:0,shown:0,timer:0,patience:0,frame:null,wrong:!1,busy:!1};async function h(t,n){let e=n===void 0?
{}:{method:"POST",body:JSON.stringify(n)};return k(await fetch(t,e))}async function k(t){let e=(t.headers.get("Content-Type")||"").startsWith("application/json")?
await t.json():{problem:await t.text()};return{status:t.status,data:e}}async function N(){let{data:t}=await h("state");i("name").textContent=t.name,document.title=
`${t.name}, live`,o.texts=t.texts,_(t.fields,t.texts),w(t.plan),L(t.pictures),l("save-name").value=t.suggested,i("save-note").textContent=`Goes into ${t.folder}\
. Comments of the file this job came from are not kept.`,V(),E(t.news),J()}function _(t,n){o.fields=t;let e=i("form");for(let s of new Set(t.map(a=>a.group))){let a=t.
filter(r=>r.group===s);e.append(c("fieldset",{},c("legend",{text:s}),...a.map(r=>A(r,n))))}e.addEventListener("input",p),e.addEventListener("change",p),e.addEventListener(
"keydown",U),e.addEventListener("submit",s=>s.preventDefault()),b()}var u=t=>`f-${t.replace(/\W/g,"-")}`;function A(t,n){let e=u(t.key),s=I(t,e);s.value=n[t.key]||
(t.kind==="switch"?t.default:"");let a=c("small",{text:t.units});return c("div",{class:"field","data-key":t.key},c("label",{for:e,text:t.label},a),s,c("p",{class:"\
hint",id:`${e}-hint`,text:t.bounds,hidden:!t.bounds}),c("p",{class:"error",id:`${e}-error`,role:"status",hidden:!0}))}function I(t,n){let e={id:n,name:t.key,"ar\
ia-describedby":`${n}-hint ${n}-error`};if(t.kind==="choice"||t.kind==="switch"){let s=t.kind==="choice"?t.choices:[["yes","yes"],["no","no"]];return c("select",
e,...s.map(([a,r])=>c("option",{value:a,text:r})))}return c("input",{...e,placeholder:t.default,maxlength:"200",spellcheck:"false"})}var P=t=>i(u(t)).closest(".\
field");function b(){let t=l(u("terminator.kind")).value;for(let{key:n,of:e}of o.fields)P(n).hidden=e.length>0&&!e.includes(t)}function U(t){let n={ArrowUp:1,ArrowDown:-1}[t.
key],e=t.target.tagName==="INPUT"&&/\d+(?:\.(\d+))?(?![\d/])/.exec(t.target.value);if(!n||!e||t.target.value[e.index-1]==="/")return;t.preventDefault();let s=(e[1]||
"").length,a=Math.max(0,Number(e[0])+n*10**-s).toFixed(s);t.target.value=t.target.value.slice(0,e.index)+a+t.target.value.slice(e.index+e[0].length),p()}function p(){
b(),clearTimeout(o.timer),o.number+=1,o.timer=setTimeout(C,v)}var M=()=>Object.fromEntries(o.fields.map(({key:t})=>[t,l(u(t)).value]));async function C(){if(o.busy){
o.timer=setTimeout(C,v);return}let t=o.number;o.busy=!0;let{status:n,data:e}=await f(()=>h("job",{texts:M()}));if(o.busy=!1,!(t!==o.number||n===0)){if(o.sent=t,
o.wrong=n!==200||!e.plan,clearTimeout(o.patience),o.wrong){o.patience=setTimeout(()=>g(e.errors||{},e.general||e.problem||""),j);return}g({},""),w(e.plan),D(e.fields),
o.texts=e.texts,o.mine=e.change}}async function f(t){try{return await t()}catch{return $(),{status:0,data:{}}}}function g(t,n){for(let{key:e}of o.fields){let[s,
a]=[l(u(e)),i(`${u(e)}-error`)],r=t[e]||"";s.setAttribute("aria-invalid",r?"true":"false"),a.textContent!==r&&(a.textContent=r),a.hidden=!r}i("general").textContent=
n,i("general").hidden=!n,i("stale").hidden=Object.keys(t).length===0&&!n}function D(t){for(let n of t){let e=l(u(n.key));e.tagName==="INPUT"&&(e.placeholder=n.default),
i(`${u(n.key)}-hint`).textContent=n.bounds}}async function R(){let{status:t,data:n}=await f(()=>h("state"));if(t===200&&(L(n.pictures),!(JSON.stringify(n.texts)===
JSON.stringify(o.texts)||o.number!==o.sent))){o.texts=n.texts;for(let{key:e,kind:s,default:a}of o.fields){let r=l(u(e));r!==document.activeElement&&(r.value=n.texts[e]||
(s==="switch"?a:""))}b(),g({},""),w(n.plan)}}var F=["eye_length_to_crown","eye_slack","throat_angle","tail_to_lay_out","bury_length","take_up"],x=[["marks","Mar\
ks"],["lengths","Lengths"],["figures","Angles, shares and tensions"]];function w(t){let n=new Map([...i("plan").querySelectorAll("td")].map(r=>[r.dataset.name,r.
textContent])),e=x.map(([r,d])=>G(d,t[r],n));i("plan").replaceChildren(...e);let s=x.flatMap(([r])=>t[r]),a=F.flatMap(r=>s.filter(d=>d.name===r));i("first").replaceChildren(
...a.flatMap(({label:r,shown:d})=>[c("dt",{text:r}),c("dd",{text:d})])),i("warnings").replaceChildren(...t.warnings.map(r=>c("li",{text:r}))),i("cautions").replaceChildren(
...t.cautions.map(r=>c("li",{text:r})))}function G(t,n,e){let s=n.map(({name:a,label:r,shown:d,measured_from:T})=>{let S=e.size>0&&e.get(a)!==d,O=c("td",{"data-\
name":a,text:d,class:S?"new":null});return c("tr",{},c("th",{scope:"row",text:r},c("small",{text:T})),O)});return c("table",{},c("caption",{text:t}),c("tbody",{},
...s))}function J(){let t=new EventSource("news");t.onmessage=n=>E(JSON.parse(n.data)),t.onerror=()=>{t.readyState===EventSource.CLOSED?W():$()}}function m(t,n){
let e=i("words");e.textContent!==t&&(e.textContent=t),i("status").classList.toggle("wrong",n)}function $(){m("fidpath has ended. The picture stays; start it aga\
in for the fields to answer.",!0),i("progress").hidden=!0}function W(){m("No more news here: too many windows show this job. Close one and load this page again.",
!0)}var B=t=>`${t.slice(0,1).toUpperCase()}${t.slice(1)}.`;function E(t){i("progress").value=t.share,i("progress").hidden=t.phase==="done"||t.phase==="refused";
let e=t.shown>0&&t.shown_change!==t.change?" The picture is still that of the figures before.":"",s=t.phase==="refused";m(`${s?"This can't be settled: ":""}${B(
t.words)}${e}`,s);let a=t.shown>o.shown;a&&q(t.shown),(a||t.change!==o.heard&&t.change!==o.mine)&&R(),o.heard=t.change}async function q(t){if(o.shown=t,!o.frame){
o.frame=z();return}let n=await o.frame,{status:e,text:s}=await f(async()=>{let a=await fetch("data");return{status:a.status,text:await a.text()}});if(e===200)try{
n.fidpathLoad(s)}catch(a){m(`The new picture can't be shown: ${a.message}`,!0)}}function z(){let t=c("iframe",{src:"splice.html",title:"The splice, step by step"});
return new Promise(n=>{t.addEventListener("load",()=>{i("waiting").hidden=!0,n(t.contentWindow)}),i("frames").append(t)})}async function H(t){t.preventDefault();
let n={name:l("save-name").value,replace:l("save-replace").checked};for(let s=0;s<50&&!o.wrong&&o.number!==o.sent;s++)await new Promise(a=>setTimeout(a,100));if(o.
wrong||o.number!==o.sent){i("save-said").textContent="The figures above don't hold: nothing was saved.";return}let{data:e}=await f(()=>h("save",n));i("save-said").
textContent=e.saved?`Saved as ${e.saved}.`:e.problem||"",i("save-said").classList.toggle("error",!e.saved),l("save-replace").checked=!1}var K=[["splice.html","t\
he page: one file that opens anywhere"],["job.toml","the job file"],["plan.json","the plan, for other programs"],["splice.stl","the finished splice as a solid, \
STL in millimetres"],["splice.glb","the finished splice as a solid, GLB in metres"]];function V(){let t=K.map(([n,e])=>{let s=c("button",{type:"button",text:`Do\
wnload ${e}`});return s.addEventListener("click",()=>y(n)),c("li",{},s)});i("take").append(...t),i("take-button").addEventListener("click",()=>y(`${l("take-pict\
ure").value}.png`)),i("save").addEventListener("submit",H)}function L(t){let n=l("take-picture"),e=n.value;n.replaceChildren(...t.map(([s,a])=>c("option",{value:s,
text:a}))),t.some(([s])=>s===e)&&(n.value=e),l("take-button").disabled=t.length===0}async function y(t){let n=i("take-said");n.textContent="It is being made.";let{
status:e,data:s}=await f(()=>Q(t));if(n.textContent=e===200?`${s.name} is there.`:s.problem||"It could not be made.",n.classList.toggle("error",e!==200),e!==200)
return;let a=c("a",{href:URL.createObjectURL(s.blob),download:s.name});a.click(),setTimeout(()=>URL.revokeObjectURL(a.href),6e4)}async function Q(t){let n=await fetch(
`take/${t}`);if(n.status===200){let e=/filename="([^"]+)"/.exec(n.headers.get("Content-Disposition")||"");return{status:200,data:{blob:await n.blob(),name:e?e[1]:
t}}}return k(n)}N();})();
