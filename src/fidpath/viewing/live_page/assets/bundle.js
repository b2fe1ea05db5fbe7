// Built by page/build.mjs from sources 975d64c23cc53efc: change those, and run `make page`.
"use strict";(()=>{function a(t){let e=document.getElementById(t);if(!e)throw new Error(`the page has no ${t}`);return e}var d=t=>a(t);function s(t,e={},...n){let o=document.createElement(t);for(let[i,r]of Object.entries(e))i==="text"?o.textContent=r:i.startsWith("on")?o.addEventListener(i.slice(
2),r):r===!0?o.setAttribute(i,""):r!==!1&&r!==null&&r!==void 0&&o.setAttribute(i,r);for(let i of n)i!==null&&o.append(i);return o}var w=t=>t instanceof Error?t.
message:String(t);async function f(t,e){let n=e===void 0?{}:{method:"POST",body:JSON.stringify(e)};try{return await v(await fetch(t,n))}catch(o){return{status:0,data:{problem:`fi\
dpath has ended (${w(o)}). Start it again.`}}}}async function v(t){let n=(t.headers.get("Content-Type")||"").startsWith("application/json")?await t.json():{problem:await t.
text()};return{status:t.status,data:n}}function I(t,e){let n=s("a",{href:URL.createObjectURL(e),download:t});n.click(),setTimeout(()=>URL.revokeObjectURL(n.href),
6e4)}var h=t=>`f-${t.replace(/\W/g,"-")}`;function b(t,e){return new Promise(n=>{let o="",i=u=>()=>{o=u,l.close()},r=e.map(u=>s("button",{type:"button",text:u,onclick:i(
u)})),l=s("dialog",{},s("p",{text:t}),s("p",{class:"buttons"},...r));l.addEventListener("close",()=>{l.remove(),n(o)}),document.body.append(l),l.showModal()})}function N({home:t,file:e},n){let o=s("button",{type:"button",class:"main",text:"Build everything",onclick:Y}),i=t?[s("a",{href:t,text:"All jobs"}),X(e,n)]:[];a(
"desk").replaceChildren(...i,o,s("span",{id:"desk-said",role:"status"}))}var X=(t,e)=>s("button",{type:"button",text:`Save to ${t}`,onclick:()=>Z(t,e)});function Y(){
a("build").click(),a("build-head").scrollIntoView()}async function Z(t,e){let n=`Write the figures as they stand into ${t}? What the file says now is replaced; \
its notes stay.`;if(await b(n,["Save","Don't save"])!=="Save")return;if(!await e()){a("desk-said").textContent="The figures don't hold: nothing was saved.";return}
let{data:o}=await f("save",{name:t,replace:!0});a("desk-said").textContent=o.saved?"Saved.":o.problem||$,o.follows&&a("follows").scrollIntoView({block:"nearest"})}
var $="Not saved yet: a name still says what the rope was. Choose above whether it follows.";function j(t,e){let n=a("follows");if(n.hidden=t.length===0,t.length===0){n.replaceChildren();return}let o=new Set([...n.querySelectorAll("input:not(:checked)")].
map(p=>p.getAttribute("data-key"))),i=t.map(p=>tt(p,!o.has(p.key))),r=s("button",{type:"button",class:"main",text:"Make these follow",onclick:()=>et(t,e)}),l=s(
"button",{type:"button",text:"Leave them as they are",onclick:()=>e.put({},!0)});n.replaceChildren(s("p",{text:"The rope has changed. These were for the rope be\
fore:"}),s("ul",{},...i),s("p",{class:"buttons"},r,l))}function tt({key:t,label:e,old:n,new:o,why:i},r){let l=s("input",{type:"checkbox",id:`follow-${t}`,"data-\
key":t});l.checked=r;let u=s("span",{class:"change"},s("s",{text:n})," to ",s("b",{text:o||"left out"}));return s("li",{},l,s("label",{for:`follow-${t}`},`${e}:\
 `,u,s("small",{text:i})))}function et(t,e){let n=t.filter(({key:o})=>d(`follow-${o}`).checked);e.put(Object.fromEntries(n.map(({key:o,new:i})=>[o,i])),!0)}function M(t){
for(let e of["mm","in"])a(`units-${e}`).addEventListener("click",async()=>{let{status:n,data:o}=await f("units",{texts:t.texts(),to:e});n===200&&t.put(o.texts,a(
"follows").hidden)})}function g(t){let e=/in$|ft$|["']$/.test((t["tools.tape_division"]||t["rope.diameter"]||"").trim());a("units-in").setAttribute("aria-presse\
d",String(e)),a("units-mm").setAttribute("aria-pressed",String(!e))}function P(t){for(let[e,n]of Object.entries(t))d(h(e)).value=n}var nt=700,x=6,S=!1;async function U(){a("build").addEventListener("click",ot),a("build-stop").addEventListener("click",()=>C("build/stop",{})),a("phone").addEventListener(
"click",rt),await D(),_()}function ot(){C("build",{motion:d("build-motion").checked,models:d("build-models").checked})}async function C(t,e){let{status:n,data:o}=await f(
t,e);n===200?R(o):B(o.problem,!0),_()}async function _(){if(!S){for(S=!0;;){let{status:t,data:e}=await f("build");if(t!==200||(R(e),e.phase!=="building"))break;
await new Promise(n=>setTimeout(n,nt))}S=!1,await D()}}function R(t){let e=t.phase==="building",n=a("build-bar");n.hidden=!e,n.value=t.share,a("build-stop").hidden=
!e,d("build").disabled=e;let o=e?`${t.name}: ${t.words} (${Math.round(100*t.share)} %)`:t.words;B(o,t.phase==="failed"),ct(t.phone)}function B(t,e){let n=a("bui\
ld-said");n.textContent!==t&&(n.textContent=t),n.classList.toggle("error",e)}async function D(){let{status:t,data:e}=await f("results");if(t!==200)return;let n=e.
groups;a("results").replaceChildren(...n.map(st)),a("results-note").textContent=n.length>0?`They are in ${e.folder}.`:"Nothing has been built yet. It takes a mi\
nute or two.",a("phone").hidden=!n.some(({files:o})=>o.some(({path:i})=>i==="splice.html"))}function st({title:t,files:e}){let n=e.map(({path:r,size:l})=>{let u=s(
"a",{href:`results/${r.split("/").map(encodeURIComponent).join("/")}`,target:"_blank",text:r});return s("li",{},u,` ${at(l)}`)}),o=s("ul",{},...n.slice(0,x)),i=n.
length>x?s("details",{},s("summary",{text:`${n.length-x} more`}),s("ul",{},...n.slice(x))):null;return s("div",{class:"result"},s("h3",{text:t}),o,i)}var at=t=>t<
1e6?`${Math.max(1,Math.round(t/1e3))} kB`:`${(t/1e6).toFixed(1)} MB`,it="Show the built page to a phone in this network? Until you stop it, for two hours at mos\
t, everybody in the same network who has the address can read the page and nothing else. The way there isn't encrypted.";async function rt(){let t=a("phone").dataset.
on==="yes";!t&&await b(it,["Show it","Not now"])!=="Show it"||await C("phone",{on:!t})}function ct(t){a("phone").dataset.on=t?"yes":"no",a("phone").textContent=
t?"Stop showing it to a phone":"Show the page on a phone in this network";let e=t&&s("img",{src:`phone.svg?${t.url.length}${t.url.slice(-6)}`,alt:"Code for the \
phone's camera",width:240,height:240}),n=t&&s("p",{},`${t.name} is shown to phones in this network, to be read only. Point the phone's camera at the code, or ty\
pe `,s("b",{text:t.url}));a("phone-shown").replaceChildren(...t?[n,e]:[])}var K=20,lt=450,c={fields:[],texts:{},number:0,sent:0,mine:0,heard:0,shown:0,timer:void 0,patience:void 0,frame:null,wrong:!1,busy:!1,agreed:!1};async function dt(){
let{data:t}=await f("state");T(t.name),c.texts=t.texts,ut(t.fields,t.texts),A(t.plan),z(t.pictures),d("save-name").value=t.suggested,a("save-note").textContent=
`Goes into ${t.folder}. Comments of the file this job came from stay in it.`,Tt(),M(G),g(t.texts),N(t,J),U(),q(t.news),kt()}function T(t){a("name").textContent=
t,document.title=`${t}, live`}var G={texts:()=>V(),put:(t,e)=>{P(t),c.agreed||=e,y()}};async function J(){for(let t=0;t<50&&!c.wrong&&c.number!==c.sent;t++)await new Promise(
e=>setTimeout(e,100));return!c.wrong&&c.number===c.sent}function ut(t,e){c.fields=t;let n=a("form");for(let o of new Set(t.map(i=>i.group))){let i=t.filter(u=>u.
group===o),r=i.map(u=>ht(u,e)),l=i.some(({key:u})=>e[u]);n.append(i[0].more?ft(o,r,l):s("fieldset",{},s("legend",{text:o}),...r))}n.addEventListener("input",y),
n.addEventListener("change",y),n.addEventListener("keydown",wt),n.addEventListener("submit",o=>o.preventDefault()),O()}var ft=(t,e,n)=>s("details",{open:n},s("s\
ummary",{text:t}),...e);function ht(t,e){let n=h(t.key),o=pt(t,n);o.value=e[t.key]||(t.kind==="switch"?t.default:"");let i=s("small",{text:t.units});return s("d\
iv",{class:"field","data-key":t.key},s("label",{for:n,text:t.label},i),o,s("p",{class:"hint",id:`${n}-hint`,text:t.bounds,hidden:!t.bounds}),s("p",{class:"error",
id:`${n}-error`,role:"status",hidden:!0}))}function pt(t,e){let n={id:e,name:t.key,"aria-describedby":`${e}-hint ${e}-error`};if(t.kind==="choice"||t.kind==="sw\
itch"){let o=t.kind==="choice"?t.choices:[["yes","yes"],["no","no"]];return s("select",n,...o.map(([i,r])=>s("option",{value:i,text:r})))}return s("input",{...n,
placeholder:t.default,maxlength:"200",spellcheck:"false"})}var mt=t=>a(h(t)).closest(".field");function O(){for(let{key:t,of:e,kindKey:n}of c.fields)mt(t).hidden=
e.length>0&&!e.includes(d(h(n)).value)}function wt(t){let e=t.target,n={ArrowUp:1,ArrowDown:-1}[t.key],o=e.tagName==="INPUT"&&/\d+(?:\.(\d+))?(?![\d/])/.exec(e.
value);if(!n||!o||e.value[o.index-1]==="/")return;t.preventDefault();let i=(o[1]||"").length,r=Math.max(0,Number(o[0])+n*10**-i).toFixed(i);e.value=e.value.slice(
0,o.index)+r+e.value.slice(o.index+o[0].length),y()}function y(){O(),clearTimeout(c.timer),c.number+=1,c.timer=setTimeout(H,K)}var V=()=>Object.fromEntries(c.fields.
map(({key:t})=>[t,d(h(t)).value]));async function H(){if(c.busy){c.timer=setTimeout(H,K);return}let t=c.number;c.busy=!0;let{status:e,data:n}=await m(()=>f("job",
{texts:V(),agreed:c.agreed}));if(c.busy=!1,!(t!==c.number||e===0)){if(c.sent=t,c.agreed=!1,j(n.follows||[],G),c.wrong=e!==200||!n.plan,clearTimeout(c.patience),
c.wrong){c.patience=setTimeout(()=>E(n.errors||{},n.general||n.problem||""),lt);return}E({},""),A(n.plan),bt(n.fields),T(n.name),g(n.texts),c.texts=n.texts,c.mine=
n.change}}async function m(t){try{let e=await t();return e.status===0&&L(),e}catch{return L(),{status:0,data:{}}}}function E(t,e){for(let{key:n}of c.fields){let[
o,i]=[d(h(n)),a(`${h(n)}-error`)],r=t[n]||"";o.setAttribute("aria-invalid",r?"true":"false"),i.textContent!==r&&(i.textContent=r),i.hidden=!r}a("general").textContent=
e,a("general").hidden=!e,a("stale").hidden=Object.keys(t).length===0&&!e}function bt(t){for(let e of t){let n=d(h(e.key));n.tagName==="INPUT"&&(n.placeholder=e.
default),a(`${h(e.key)}-hint`).textContent=e.bounds}}async function gt(){let{status:t,data:e}=await m(()=>f("state"));if(t===200&&(z(e.pictures),!(JSON.stringify(
e.texts)===JSON.stringify(c.texts)||c.number!==c.sent))){c.texts=e.texts;for(let{key:n,kind:o,default:i}of c.fields){let r=d(h(n));r!==document.activeElement&&(r.
value=e.texts[n]||(o==="switch"?i:""))}O(),T(e.name),g(e.texts),E({},""),A(e.plan)}}var xt=["eye_length_to_crown","eye_slack","throat_angle","tail_to_lay_out","\
bury_length","take_up"],F=[["marks","Marks"],["lengths","Lengths"],["figures","Angles, shares and tensions"]];function A(t){let e=new Map([...a("plan").querySelectorAll(
"td")].map(r=>[r.dataset.name,r.textContent])),n=F.map(([r,l])=>yt(l,t[r],e));a("plan").replaceChildren(...n);let o=F.flatMap(([r])=>t[r]),i=xt.flatMap(r=>o.filter(
l=>l.name===r));a("first").replaceChildren(...i.flatMap(({label:r,shown:l})=>[s("dt",{text:r}),s("dd",{text:l})])),a("warnings").replaceChildren(...t.warnings.map(
r=>s("li",{text:r}))),a("cautions").replaceChildren(...t.cautions.map(r=>s("li",{text:r})))}function yt(t,e,n){let o=e.map(({name:i,label:r,shown:l,measured_from:u})=>{
let p=n.size>0&&n.get(i)!==l,Q=s("td",{"data-name":i,text:l,class:p?"new":null});return s("tr",{},s("th",{scope:"row",text:r},s("small",{text:u})),Q)});return s(
"table",{},s("caption",{text:t}),s("tbody",{},...o))}function kt(){let t=new EventSource("news");t.onmessage=e=>q(JSON.parse(e.data)),t.onerror=()=>{t.readyState===
EventSource.CLOSED?vt():L()}}function k(t,e){let n=a("words");n.textContent!==t&&(n.textContent=t),a("status").classList.toggle("wrong",e)}function L(){k("fidpa\
th has ended. The picture stays; start it again for the fields to answer.",!0),a("progress").hidden=!0}function vt(){k("No more news here: too many windows show\
 this job. Close one and load this page again.",!0)}var $t=t=>`${t.slice(0,1).toUpperCase()}${t.slice(1)}.`;function q(t){a("progress").value=t.share,a("progres\
s").hidden=t.phase==="done"||t.phase==="refused";let e=t.shown>0&&t.shown_change!==t.change,n=e?" The picture is still that of the figures before.":"";e&&c.frame&&
c.frame.then(r=>r.document.body.classList.add("old"));let o=t.phase==="refused";k(`${o?"This can't be settled: ":""}${$t(t.words)}${n}`,o);let i=t.shown>c.shown;
i&&St(t.shown),(i||t.change!==c.heard&&t.change!==c.mine)&&gt(),c.heard=t.change}async function St(t){if(c.shown=t,!c.frame){c.frame=Ct();return}let e=await c.frame,
{status:n,text:o}=await m(async()=>{let i=await fetch("data");return{status:i.status,data:{},text:await i.text()}});if(n===200)try{e.fidpathLoad(o||"")}catch(i){
k(`The new picture can't be shown: ${w(i)}`,!0)}}function Ct(){let t=s("iframe",{src:"splice.html",title:"The splice, step by step"});return new Promise(e=>{t.addEventListener(
"load",()=>{a("waiting").hidden=!0;let n=t.contentWindow;n&&(n.addEventListener("fidpath-shown",o=>f("look",{key:o.detail})),e(n))}),a("frames").append(t)})}async function Et(t){
t.preventDefault();let e={name:d("save-name").value,replace:d("save-replace").checked};if(!await J()){a("save-said").textContent="The figures above don't hold: \
nothing was saved.";return}let{data:n}=await m(()=>f("save",e));a("save-said").textContent=n.saved?`Saved as ${n.saved}.`:n.problem||$,a("save-said").classList.
toggle("error",!n.saved),n.follows&&a("follows").scrollIntoView({block:"nearest"}),d("save-replace").checked=!1}var Lt=[["splice.html","the page with its pictur\
es: one file that opens anywhere"],["job.toml","the job file"],["plan.json","the plan, for other programs"],["splice.stl","the finished splice as a solid, STL i\
n millimetres"],["splice.glb","the finished splice as a solid, GLB in metres"]];function Tt(){let t=Lt.map(([e,n])=>{let o=s("button",{type:"button",text:`Downl\
oad ${n}`});return o.addEventListener("click",()=>W(e)),s("li",{},o)});a("take").append(...t),a("take-button").addEventListener("click",()=>W(`${d("take-picture").
value}.png`)),a("save").addEventListener("submit",Et)}function z(t){let e=d("take-picture"),n=e.value;e.replaceChildren(...t.map(([o,i])=>s("option",{value:o,text:i}))),
t.some(([o])=>o===n)&&(e.value=n),d("take-button").disabled=t.length===0}async function W(t){let e=a("take-said");e.textContent=t==="splice.html"?"Its pictures \
are being drawn: about half a minute.":"It is being made.";let{status:n,data:o}=await m(()=>Ot(t));e.textContent=n===200?`${o.name} is there.`:o.problem||"It co\
uld not be made.",e.classList.toggle("error",n!==200),n===200&&I(o.name,o.blob)}async function Ot(t){let e=await fetch(`take/${t}`);if(e.status===200){let n=/filename="([^"]+)"/.
exec(e.headers.get("Content-Disposition")||"");return{status:200,data:{blob:await e.blob(),name:n?n[1]:t}}}return v(e)}dt();})();
